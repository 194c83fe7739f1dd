/** Above this a report is an index and pages of so many portraits. */
export const PORTRAITS_PER_PAGE = 200
