/** Version of what is measured. @choice raised whenever a definition in measurements.ts or the code behind it changes a value. */
export const MEASURER_VERSION = 24
