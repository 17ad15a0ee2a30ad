import { mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';

const out = process.argv[2];
const cli = await import('../src/cli/sheetCommand.ts');
const { readPlan } = await import('../src/plan/read.ts');
const { layoutSetup } = await import('../src/layout/layout.ts');
const { runChecks } = await import('../src/checks/run.ts');
const reportModule = process.env.REPORT ?? '../src/words/report.ts';
const { measureReport } = await import(reportModule);
const kinds = (process.env.KINDS ?? 'venue,marks,template,pull,comparison').split(',');
const names = ['venue', 'marks', 'template', 'pull', 'comparison'];
const quiet = console.log;
console.log = () => {};
for (const file of readdirSync('samples').filter((f) => f.endsWith('.legroom.json'))) {
  const dir = join(out, file.replace('.legroom.json', ''));
  rmSync(dir, { recursive: true, force: true });
  mkdirSync(dir, { recursive: true });
  const read = readPlan(readFileSync(join('samples', file), 'utf8'));
  if (!read.ok) throw new Error(read.problem.sentence);
  for (const id of read.plan.order) {
    const layout = layoutSetup(read.plan, id);
    const checked = runChecks(read.plan, id, layout);
    writeFileSync(
      join(dir, `${id}.measure.json`),
      JSON.stringify(measureReport(read.plan, id, layout, checked), null, 1),
    );
    for (let k = 0; k < kinds.length; k++) {
      for (const ext of k === 3 ? ['pdf', 'svg', 'csv'] : k === 4 ? ['pdf', 'svg'] : ['pdf', 'svg', 'dxf']) {
        if (k === 4 && id !== read.plan.order[0]) continue;
        for (const paper of ext === 'pdf' ? ['a4', 'letter'] : ['a4']) {
          const argv = [
            join('samples', file),
            '--setup',
            read.plan.setups[id].name,
            '--kind',
            kinds[k],
            '--date',
            '2026-01-01',
            '--paper',
            paper,
            '-o',
            join(dir, `${id}.${names[k]}.${paper}.${ext}`),
          ];
          if (k === 3) argv.push('--stock', 'samples/rehearsal-room.legroom-stock.json');
          const code = await cli.sheetCommand(argv);
          if (code !== 0) quiet('FAILED', argv.join(' '));
        }
      }
    }
    if (id === read.plan.order[0])
      await cli.sheetCommand([
        join('samples', file),
        '--setup',
        read.plan.setups[id].name,
        '--kind',
        kinds[0],
        '--date',
        '2026-01-01',
        '-o',
        join(dir, `${id}.venue.png`),
      ]);
  }
}
