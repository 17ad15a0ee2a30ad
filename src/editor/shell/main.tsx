/** The page's beginning: the last plan, or a sample on the first visit; then everything else. */
import './tokens.css';
import '../panels/panels.css';
import './app.css';
import { StrictMode } from 'react';
import { createRoot } from 'react-dom/client';
import { restoreLook } from '../state/look.ts';
import { createEditor } from '../state/store.ts';
import { App } from './App.tsx';
import { PageBoundary } from './broken/PageBoundary.tsx';
import { fetchAtFirstMove } from './later.ts';
import { registerWorker } from './worker/register.ts';
import { startWork } from './workplace.ts';

const root = createRoot(document.getElementById('page')!);
const editor = createEditor();
restoreLook(editor);

startWork(editor).then(
  (workplace) =>
    root.render(
      <StrictMode>
        <PageBoundary workplace={workplace}>
          <App workplace={workplace} />
        </PageBoundary>
      </StrictMode>,
    ),
  (problem: Error) => root.render(<p className="cannot-start">Legroom could not start: {problem.message}</p>),
);

fetchAtFirstMove();

// Every built page, the one under test too; the development server replaces parts of the page by itself.
if (!import.meta.hot) void registerWorker();
