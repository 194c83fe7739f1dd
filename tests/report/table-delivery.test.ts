import stringWidth from 'string-width'
import { expect, test } from 'vitest'
import { exitCode } from '../../src/judge/report.ts'
import { markdown } from '../../src/report/markdown.ts'
import { verdictSentence } from '../../src/report/sentences.ts'
import { table } from '../../src/report/table.ts'
import type { Waiver } from '../../src/waivers/waiver.ts'
import { wholeReport } from '../judge/whole.ts'
import { COMPLETE, STAFF } from '../rules/delivery/delivery-cases.ts'
import { face, UNREAD } from '../rules/judging/cases.ts'

const LUND = 'print/Lund-Bjørn_00990.jpg'
const waiver = (changes: Partial<Waiver>): Waiver => ({
  line: 1,
  rule: 'tilt',
  files: [LUND],
  people: [],
  reason: 'As he wished.',
  approvedBy: 'Ingrid Vale',
  until: '2027-03-31',
  ...changes,
})
const FAULTY = wholeReport(
  [LUND, 'print/Nayr-Priya_15388.jpg', 'late/web/Nair-Priya_15388.jpg', 'web/Nair-Priya_15388.jpg'],
  [waiver({}), waiver({ line: 6, until: '2026-01-31' }), waiver({ line: 11, rule: 'color-space' })],
  { [LUND]: face({ tiltDeg: 4 }) },
)

test('a complete delivery at 80 columns', () => {
  expect(table(wholeReport(COMPLETE), { columns: 80, color: false })).toMatchInlineSnapshot(`
    "PASS    4 portraits: 4 pass, 0 fail, 0 unsure; 0 warnings. The delivery as a
            whole: no problems.
    Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)

    2 people, none missing or double.

    Who has what: 2 of 2 people complete; 1 absent

                        print    web
      Lund Bjørn 00990  pass     pass
      Nair Priya 15388  pass     pass
      Pham Linh 17001   absent: on leave
    "
  `)
})

test('misses, who has what, and waivers at 80 columns', () => {
  expect(table(FAULTY, { columns: 80, color: false })).toMatchInlineSnapshot(`
    "FAIL    4 portraits: 1 pass, 3 fail, 0 unsure; 0 warnings; 1 exception. The
            delivery as a whole: 3 problems.
    Osprey Lane Veterinary Group, brand spec version 1 (brand.yaml)

    2 people: 1 without one of the deliverables (Lund Bjørn 00990); 1 double (Nair
    Priya 15388).

    Rules missed, by number of portraits
      variants  2 of 4
      roster    1 of 4

    3 of 4 portraits need work

      print/Nayr-Priya_15388.jpg
        fail    roster  "Nayr" is not on the roster; it most likely means "Nair
                        Priya 15388".
                        Fix: Rename it to "print/Nair-Priya_15388.jpg". If it is
                        someone else, add them to the roster.

      2 of them only because of findings on the whole delivery.

    The delivery as a whole

        fail    variants  "Lund Bjørn 00990" has no portrait for web.
                          Fix: Export web from the same frame as the other file.
        fail    variants  "Nair Priya 15388" has 2 portraits for web:
                          "late/web/Nair-Priya_15388.jpg" and
                          "web/Nair-Priya_15388.jpg".
                          Fix: They are identical: keep "web/Nair-Priya_15388.jpg"
                          and delete "late/web/Nair-Priya_15388.jpg".

    Who has what: 0 of 2 people complete; 1 absent

                        print    web
      Lund Bjørn 00990  pass     MISSING
      Nair Priya 15388  fail     DOUBLE
      Pham Linh 17001   absent: on leave

    Exceptions: 1 finding accepted

      -  The exception from tilt for "print/Lund-Bjørn_00990.jpg" (line 6 of the
         waivers file) ended on 2026-01-31; fix the portrait or renew the exception.
      -  The exception from color-space for "print/Lund-Bjørn_00990.jpg" (line 11 of
         the waivers file) has no effect: nothing that it covers fails or is unsure;
         remove it.
      -  tilt for "print/Lund-Bjørn_00990.jpg": accepted until 2027-03-31 by "Ingrid
         Vale", who writes "As he wished". The finding: The eye line is tilted 4°
         clockwise; the spec asks for at most 2° either way.

    FAIL    4 portraits: 1 pass, 3 fail, 0 unsure; 0 warnings; 1 exception. The
            delivery as a whole: 3 problems.
    "
  `)
})

test('the same as Markdown', () => {
  expect(markdown(FAULTY)).toMatchInlineSnapshot(`
    "## Of 4 portraits, 3 fail; the delivery as a whole fails.

    Brand spec: Osprey Lane Veterinary Group, version 1 (brand.yaml). 4 portraits: 1 pass, 3 fail, 0 unsure; 0 warnings; 1 exception. The delivery as a whole: 3 problems.

    2 people: 1 without one of the deliverables (Lund Bjørn 00990); 1 double (Nair Priya 15388).

    | Rule missed | Portraits |  |
    | --- | --- | --- |
    | variants | 2 of 4 |  |
    | roster | 1 of 4 |  |

    ### Need work

    | About | Rule | Finding | Fix |
    | --- | --- | --- | --- |
    | Lund Bjørn 00990 | variants | "Lund Bjørn 00990" has no portrait for web. | Export web from the same frame as the other file. |
    | Nair Priya 15388, late/web/Nair-Priya&#95;15388.jpg, web/Nair-Priya&#95;15388.jpg | variants | "Nair Priya 15388" has 2 portraits for web: "late/web/Nair-Priya&#95;15388.jpg" and "web/Nair-Priya&#95;15388.jpg". | They are identical: keep "web/Nair-Priya&#95;15388.jpg" and delete "late/web/Nair-Priya&#95;15388.jpg". |
    | print/Nayr-Priya&#95;15388.jpg | roster | "Nayr" is not on the roster; it most likely means "Nair Priya 15388". | Rename it to "print/Nair-Priya&#95;15388.jpg". If it is someone else, add them to the roster. |

    ### Who has what

    | Person | print | web |
    | --- | --- | --- |
    | Lund Bjørn 00990 | pass | **missing** |
    | Nair Priya 15388 | **fail** | **double** |
    | Pham Linh 17001 | absent: on leave | absent |

    ### Exceptions

    | About | Rule | Until when, by whom and why |
    | --- | --- | --- |
    | print/Lund-Bjørn&#95;00990.jpg | tilt | tilt for "print/Lund-Bjørn&#95;00990.jpg": accepted until 2027-03-31 by "Ingrid Vale", who writes "As he wished". The finding: The eye line is tilted 4° clockwise; the spec asks for at most 2° either way. |

    The exception from tilt for "print/Lund-Bjørn&#95;00990.jpg" (line 6 of the waivers file) ended on 2026-01-31; fix the portrait or renew the exception.

    The exception from color-space for "print/Lund-Bjørn&#95;00990.jpg" (line 11 of the waivers file) has no effect: nothing that it covers fails or is unsure; remove it.
    "
  `)
})

test('a delivery whose portraits all pass can fail as a whole', () => {
  const report = wholeReport(COMPLETE.slice(1))
  expect(report.totals).toMatchObject({ pass: 3, fail: 0, unsure: 0 })
  expect(report.verdict).toBe('fail')
  expect(exitCode(report)).toBe(1)
  expect(verdictSentence(report)).toBe('3 portraits pass one by one, but the delivery as a whole fails.')
})

test('what is waived does not fail the run, and a waiver for a file that can not be read is refused', () => {
  const tilted = { [LUND]: face({ tiltDeg: 4 }) }
  expect(wholeReport(COMPLETE, [], tilted).verdict).toBe('fail')
  expect(wholeReport(COMPLETE, [waiver({})], tilted)).toMatchObject({
    verdict: 'pass',
    totals: { waived: 1 },
  })
  const broken = {
    [LUND]: { ...UNREAD, format: null, fault: { kind: 'not-a-picture' as const, detail: '' } },
  }
  const report = wholeReport(COMPLETE, [waiver({ rule: 'file-format' })], broken)
  expect(report).toMatchObject({ verdict: 'fail', totals: { waived: 0 }, waivers: [{ state: 'refused' }] })
})

test('a missing variant is waived for the person', () => {
  const report = wholeReport(COMPLETE.slice(1), [
    waiver({ rule: 'variants', files: [], people: [{ 'staff-id': '00990' }] }),
  ])
  expect(report).toMatchObject({ verdict: 'pass', waivers: [{ state: 'used' }] })
})

const MANY = Array.from({ length: 100 }, (_, i) => String(i).padStart(5, '0'))
const MANY_STAFF = `family,given,staff-id\n${MANY.map((id) => `Lund,Person,${id}`).join('\n')}\n`

test('of many people those who stand alike have one row', () => {
  const paths = MANY.flatMap((id) => [`print/Lund-Person_${id}.jpg`, `web/Lund-Person_${id}.jpg`]).slice(
    0,
    -1,
  )
  const report = wholeReport(paths, [], {}, MANY_STAFF)
  const text = table(report, { columns: 80, color: false })
  expect(text).toContain('100 people: 1 without one of the deliverables (Lund Person 00099).')
  expect(text).toContain('Who has what: 99 of 100 people complete')
  expect(text).toContain('Lund Person 00099  pass     MISSING\n  99 people alike    pass     pass')
  expect(text).not.toContain('Lund Person 00042')
  expect(markdown(report)).toContain('| 99 people alike | pass | pass |')
  expect(table(report, { columns: 80, color: false, all: true })).toContain(
    'Lund Person 00042  pass     pass',
  )
})

test.each([40, 80, 120])(
  'no line is wider than %i columns, and nothing of a stranger reaches the terminal raw',
  (columns) => {
    const staff = `${STAFF.trimEnd()}\n"\u001b[31m\u202eEvil${'x'.repeat(200)}",a,00001,\n界界界界界界界界界界界界界界界界界界界界,b,00002,"gone\nfor\nlong"\n`
    const text = table(wholeReport(COMPLETE, [], {}, staff), { columns, color: false })
    for (const line of text.split('\n')) expect(stringWidth(line)).toBeLessThanOrEqual(columns)
    expect(text).not.toContain('\u001b')
    expect(text).not.toContain('\u202e')
    expect(text).toContain('<U+001B>')
  },
)
