import { createRoot } from 'react-dom/client';
import { startTheme } from '../ui/theme.ts';
import '../ui/fonts.css';
import '../ui/base.css';
import '../ui/controls.css';
import { BenchPage } from './bench-page.tsx';
import { keepProgram } from './device/program.ts';
import { Unopened } from './unopened.tsx';

startTheme();
const run = /^\/bench\/([\w-]{8,64})\/?$/.exec(window.location.pathname)?.[1];
createRoot(document.getElementById('page')!).render(
  run === undefined ? <Unopened why="no-run" /> : <BenchPage run={run} />,
);
void keepProgram();
