import { QueryClientProvider } from '@tanstack/react-query';
import { lazy, Suspense } from 'react';
import { BrowserRouter, Route, Routes } from 'react-router';
import { queryClient } from './api/queries.ts';
import { ExperimentPage } from './experiment/experiment-page.tsx';
import { ShelfPage } from './shelf/shelf-page.tsx';
import { SignInPage } from './sign-in/sign-in-page.tsx';
import { SignedIn } from './sign-in/signed-in.tsx';
import { NotFoundPage } from './ui/not-found.tsx';
import { OpeningPage } from './ui/opening.tsx';

// Pages that bring the core with them are fetched when they are opened.
const ComparePage = lazy(async () => ({
  default: (await import('./compare/compare-page.tsx')).ComparePage,
}));
const ResultPage = lazy(async () => ({
  default: (await import('./result/result-page.tsx')).ResultPage,
}));
const EvidencePage = lazy(async () => ({
  default: (await import('./evidence/evidence-page.tsx')).EvidencePage,
}));
const LibraryPage = lazy(async () => ({
  default: (await import('./library/library-page.tsx')).LibraryPage,
}));
const HelpPage = lazy(async () => ({
  default: (await import('./help/help-page.tsx')).HelpPage,
}));
const SettingsPage = lazy(async () => ({
  default: (await import('./settings/settings-page.tsx')).SettingsPage,
}));

export function App() {
  return (
    <QueryClientProvider client={queryClient}>
      <BrowserRouter>
        <Suspense fallback={<OpeningPage />}>
          <Routes>
            <Route path="/sign-in" element={<SignInPage />} />
            <Route element={<SignedIn />}>
              <Route index element={<ShelfPage />} />
              <Route path="/experiments/:id" element={<ExperimentPage />} />
              <Route path="/experiments/:id/compare" element={<ComparePage />} />
              <Route path="/runs/:id" element={<ResultPage />} />
              <Route path="/runs/:id/evidence" element={<EvidencePage />} />
              <Route path="/spectra" element={<LibraryPage />} />
              <Route path="/help" element={<HelpPage />} />
              <Route path="/settings" element={<SettingsPage />} />
            </Route>
            <Route path="*" element={<NotFoundPage />} />
          </Routes>
        </Suspense>
      </BrowserRouter>
    </QueryClientProvider>
  );
}
