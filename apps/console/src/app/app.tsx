import { QueryClientProvider } from '@tanstack/react-query';
import { useState } from 'react';
import { BrowserRouter, Navigate, Route, Routes } from 'react-router';
import { newQueryClient } from '../client/queries.js';
import { LotPage } from '../features/lots/lot-page.js';
import { LotsPage } from '../features/lots/lots-page.js';
import { Door } from '../features/people/door.js';
import { RunPage } from '../features/runs/run-page.js';
import { ReaderProvider } from '../parts/units/reader.js';
import { Frame } from './frame.js';
import { NothingHere } from './nothing-here.js';

export function App() {
  const [queries] = useState(newQueryClient);
  return (
    <QueryClientProvider client={queries}>
      <ReaderProvider>
        <BrowserRouter>
          <Routes>
            <Route
              element={
                <Door>
                  <Frame />
                </Door>
              }
            >
              <Route index element={<Navigate to="/lots" replace />} />
              <Route path="lots" element={<LotsPage />} />
              <Route path="lots/:lot" element={<LotPage />} />
              <Route path="lots/:lot/runs/:run" element={<RunPage />} />
              <Route path="*" element={<NothingHere />} />
            </Route>
          </Routes>
        </BrowserRouter>
      </ReaderProvider>
    </QueryClientProvider>
  );
}
