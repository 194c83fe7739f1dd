/** Who wrote a report. The version is that of package.json; a test holds the two together. */
export const TOOL = { name: 'portrait-gate', version: '0.1.0' } as const
