import { createRoot } from 'react-dom/client';
import { startTheme } from '../ui/theme.ts';
import '../ui/fonts.css';
import '../ui/base.css';
import '../ui/controls.css';

startTheme();
createRoot(document.getElementById('page')!).render(<p>…</p>);
