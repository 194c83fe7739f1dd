/** A parsed naming pattern such as `{deliverable}/{family}-{given}_{staff-id}.jpg`. */
export interface NamingPattern {
  readonly text: string
}
