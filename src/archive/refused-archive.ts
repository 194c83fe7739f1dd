/** Why a zip is not unpacked, in a sentence or two that stand after its name. Nothing of it is left on the disk then. */
export class RefusedArchive extends Error {}
