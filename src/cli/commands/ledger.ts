import type { Enactment } from '../../core/enact/enactment.ts';
import type { Posting } from '../../core/ledger/posting.ts';
import { ledgerListing } from '../../core/report/listing/listing.ts';
import type { LedgerListing } from '../../core/report/listing/listing.ts';
import { EXIT, optionText, refusal } from '../command.ts';
import type { Answer, Call, Command } from '../command.ts';
import { documentOf, titleLine } from '../experiment-file.ts';
import type { Paper } from '../paint/ink.ts';
import { legend, marked, setBy } from '../paint/number.ts';
import { paintTable } from '../paint/table.ts';
import { count, paragraph } from '../paint/text.ts';
import { RECORD_OPTION, openAsked } from '../record-option.ts';
import type { Asked } from '../record-option.ts';

interface Line {
  readonly account: string;
  readonly substance: string;
  readonly amount_mmol: number;
  readonly mass_g: number;
}

/** Less than this is the dust of arithmetic. */
const DUST_g = 5e-6;

function accountLines({ accounts }: LedgerListing, under: string | undefined): Line[] {
  return accounts
    .filter(({ account }) => under === undefined || `${account}/`.startsWith(`${under}/`))
    .flatMap(({ account, substances }) =>
      substances
        .filter(({ balance_g }) => Math.abs(balance_g) > DUST_g)
        .map(({ substance, balance_g, balance_mmol }) => ({
          account,
          substance,
          amount_mmol: balance_mmol,
          mass_g: balance_g,
        })),
    );
}

const grams = (mass_g: number) => mass_g.toFixed(4);
const millimoles = (amount_mmol: number) => (amount_mmol === 0 ? '' : amount_mmol.toFixed(3));

function paintPostings(postings: readonly Posting[], run: Enactment, paper: Paper): string {
  const name = (id: string) => run.substances.get(id)?.name ?? id;
  const { text } = paintTable(
    postings,
    [
      { head: 'step', cell: (p) => p.step },
      { head: 'from', cell: (p) => p.from, least: 16 },
      { head: 'to', cell: (p) => p.to, least: 16 },
      { head: 'substance', cell: (p) => name(p.substance), least: 14 },
      { head: 'mmol', cell: (p) => millimoles(p.amount_mmol), align: 'decimal' },
      {
        head: 'g',
        cell: (p) => marked(grams(p.mass_g), p.basis),
        align: 'decimal',
        set: (p) => setBy(p.basis, paper.ink),
      },
    ],
    paper,
  );
  return `${text}\n\n${legend(
    postings.map((p) => p.basis),
    paper,
  )}`.trimEnd();
}

function paintAccounts(lines: readonly Line[], run: Enactment, paper: Paper): string {
  const first = new Set(lines.filter((line, i) => lines[i - 1]?.account !== line.account));
  const { text } = paintTable(
    lines,
    [
      { head: 'account', cell: (line) => (first.has(line) ? line.account : ''), least: 20 },
      {
        head: 'substance',
        cell: (line) => run.substances.get(line.substance)?.name ?? line.substance,
        least: 20,
      },
      { head: 'mmol', cell: (line) => millimoles(line.amount_mmol), align: 'decimal' },
      { head: 'g', cell: (line) => grams(line.mass_g), align: 'decimal' },
    ],
    paper,
  );
  return text;
}

async function run(call: Call): Promise<Answer> {
  const opening = await openAsked(call);
  if (!opening.ok) return opening.answer;
  return answerFor(call, opening.asked);
}

function answerFor(call: Call, { opened, run, remarks }: Asked): Answer {
  const step = optionText(call, 'step');
  const account = optionText(call, 'account');
  const touches = (path: string) =>
    account === undefined || path === account || path.startsWith(`${account}/`);
  const postings = run.postings.filter(
    (p) => (step === undefined || p.step === step) && (touches(p.from) || touches(p.to)),
  );
  if (step !== undefined && !opened.experiment.steps.some((one) => one.id === step))
    return refusal(
      `There is no step ${step}.`,
      `The steps: ${opened.experiment.steps.map((one) => one.id).join(', ')}`,
    );
  const listing = ledgerListing(run);
  const { imbalances } = listing;
  const lines = accountLines(
    step === undefined ? listing : ledgerListing({ ...run, postings }),
    account,
  );
  const kept =
    imbalances.length === 0
      ? 'It balances: mass, each element and charge.'
      : `It does not balance (${imbalances.map((one) => `${one.account}: ${one.what} ${one.of ?? ''}`.trim()).join('; ')}). This is a fault of the program, not yours.`;
  const byAccount = call.options['accounts'] === true;
  return {
    kind: 'answer',
    exit: imbalances.length === 0 ? EXIT.fine : EXIT.findings,
    data: { document: documentOf(opened), run: run.kind, postings, accounts: lines, imbalances },
    paint: (paper) =>
      [
        paragraph(`${count(postings.length, 'posting')}. ${kept}`, paper.width),
        paper.ink.faint(paragraph(titleLine(opened), paper.width)),
        '',
        byAccount ? paintAccounts(lines, run, paper) : paintPostings(postings, run, paper),
      ].join('\n'),
    remarks,
  };
}

export const ledgerCommand: Command = {
  name: 'ledger',
  summary: 'every passage of matter, or what stands on each account',
  takes: 'FILE',
  about:
    'Lists the postings of an experiment: from where to where, which substance, how much, and how that ' +
    'is known. With --accounts it says what stands on each account at the end.',
  options: {
    accounts: { type: 'boolean', about: 'What stands on each account.' },
    account: {
      type: 'string',
      value: 'PATH',
      about: 'Only this account, as vessel/flask or waste.',
    },
    step: { type: 'string', value: 'STEP', about: 'Only this step.' },
    record: RECORD_OPTION,
  },
  examples: [
    'ledger aspirin.md',
    'ledger aspirin.md --accounts --account vessel',
    'ledger aspirin.md --step 3',
  ],
  arity: [1, 1],
  run,
};
