/** Name of the schema file that a starter spec refers to. */
export const SCHEMA_FILE = 'brand-spec.schema.json'

/**
 * A first brand spec to start from. The numbers are common practice for staff portraits, no source; each is the
 * client's to change.
 */
export const STARTER_SPEC = `# yaml-language-server: $schema=./${SCHEMA_FILE}
#
# What the client asks of every portrait. Change the numbers to what you have agreed on, and remove
# what was not agreed.
# Lines that begin with # are notes, or settings that you switch on by removing the #.
# Details of a setting: portrait-gate explain headroom. All settings: portrait-gate explain

brand: Osprey Lane Veterinary Group
version: 1 # raise it with each change, so that a report shows which version it used

# How the files are named, with fields in braces. "_" divides them, since names have hyphens.
# This one reads: web/Abara-Duru_Nkem_00123.jpg
naming:
  pattern: "{deliverable}/{family}_{given}_{staff-id}.jpg"
  fields:
    staff-id: { digits: 5 }

# What is delivered, by the name of its folder. A setting here replaces the general one further down.
deliverables:
  print:
    aspect-ratio: "4:5"
    pixel-size: { width: 2400, height: 3000 }
    resolution: { ppi: 300 }
    eye-focus: { max: 2 } # on the larger file, which shows it
  web:
    aspect-ratio: "1:1"
    pixel-size: { width: 800, height: 800 }
    file-size: { max: 400 kB }
    headroom: { min: 4, max: 10 }
    eye-line: { min: 36, max: 46 }
    head-height: { min: 46, max: 58 }

# The delivery as a whole; switch the other two on when it must be complete

duplicate-picture: none # no picture for two people
same-frame: all # all of a person's files come from one frame
# variants: all # every person has every deliverable once
# roster: staff.csv # the list of people, beside this file: missing people are reported

# The file

file-format: { allow: [jpeg] }
color-space: sRGB # for black and white: { profile: sRGB, allow-monochrome: true }
bit-depth: 8
orientation: upright
compression: { quality: { min: 90 } }

# What hurts when it is published

metadata-forbidden: [location, camera-serial, lens-serial]
stale-preview: true
lens-glare: { max: 3 }

# The backdrop, in CIE L* (0 is black, 100 is white)

background-lightness: { target: 96, tolerance: 2.5 }
background-unevenness: { max: 4 }
background-tint: { max-chroma: 3 }
# background-tint: { color: "#f4f4f2", tolerance: 2 } # the client's own color; the quotes are needed

# The sitter in the frame, in percent of its height or width; tilt in degrees

headroom: { min: 6, max: 12 }
eye-line: { min: 33, max: 42 }
head-height: { min: 40, max: 50 }
centering: { max: 3 }
tilt: { max: 4 }

# Rules that only warn

advisory: [tilt]
`
