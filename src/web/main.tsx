import './begin.ts';
import { createRoot } from 'react-dom/client';
import { App } from './app.tsx';
import { startTheme } from './ui/theme.ts';
import './ui/fonts.css';
import './ui/base.css';
import './ui/controls.css';

startTheme();
createRoot(document.getElementById('page')!).render(<App />);
