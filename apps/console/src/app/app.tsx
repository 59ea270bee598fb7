import { QueryClientProvider } from '@tanstack/react-query';
import { useState } from 'react';
import { BrowserRouter, Navigate, Route, Routes } from 'react-router';
import { newQueryClient } from '../client/queries.js';
import { ApprovalPage } from '../features/approvals/approval-page.js';
import { ApprovalsPage } from '../features/approvals/approvals-page.js';
import { CertificatePage } from '../features/certificates/certificate-page.js';
import { CertificatesPage } from '../features/certificates/certificates-page.js';
import { ComparisonPage } from '../features/comparisons/comparison-page.js';
import { ComparisonsPage } from '../features/comparisons/comparisons-page.js';
import { DeclareAnewPage, DeclareComparisonPage } from '../features/comparisons/declare/declare-page.js';
import { ConcessionsPage } from '../features/concessions/concessions-page.js';
import { DispositionPage } from '../features/dispositions/disposition-page.js';
import { CheckDocumentPage } from '../features/document-checks/check-document-page.js';
import { DocumentPage } from '../features/documents/document-page.js';
import { DocumentsPage } from '../features/documents/documents-page.js';
import { KeepingPage } from '../features/keeping/keeping-page.js';
import { LedgerPage } from '../features/ledger/ledger-page.js';
import { LotPage } from '../features/lots/lot-page.js';
import { LotsPage } from '../features/lots/lots-page.js';
import { NonconformitiesPage } from '../features/nonconformities/nonconformities-page.js';
import { NonconformityPage } from '../features/nonconformities/nonconformity-page.js';
import { OldResultsPage } from '../features/old-results/old-results-page.js';
import { OldTablePage } from '../features/old-results/old-table-page.js';
import { Door } from '../features/people/door.js';
import { MyPage } from '../features/people/my-page.js';
import { PeoplePage } from '../features/people/people-page.js';
import { PersonPage } from '../features/people/person-page.js';
import { PlanningPage } from '../features/planning/planning-page.js';
import { WritePlanPage } from '../features/planning/writing/write-plan-page.js';
import { ProductPage } from '../features/products/product-page.js';
import { ChooseReferencePage, NextReferencePage } from '../features/references/choose-reference-page.js';
import { ReferencePage } from '../features/references/reference-page.js';
import { ReferencesPage } from '../features/references/references-page.js';
import { LayoutPage } from '../features/rigs/layout/layout-page.js';
import { RigPage } from '../features/rigs/rig-page.js';
import { RigsPage } from '../features/rigs/rigs-page.js';
import { DraftsProvider } from '../features/runs/log/drafts.js';
import { LogRunPage } from '../features/runs/log/log-run-page.js';
import { RunPage } from '../features/runs/run-page.js';
import { SafetyFlagPage } from '../features/safety-flags/safety-flag-page.js';
import { SafetyFlagsPage } from '../features/safety-flags/safety-flags-page.js';
import { SigningKeysPage } from '../features/signing-keys/signing-keys-page.js';
import { SpecimenPage } from '../features/specimens/specimen-page.js';
import { SpecimensPage } from '../features/specimens/specimens-page.js';
import { UnreadPage } from '../features/unread/unread-page.js';
import { ReaderProvider } from '../parts/units/reader.js';
import { Frame } from './frame.js';
import { NothingHere } from './nothing-here.js';

export function App() {
  const [queries] = useState(newQueryClient);
  return (
    <QueryClientProvider client={queries}>
      <ReaderProvider>
        <DraftsProvider>
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
                <Route path="lots/:lot/disposition" element={<DispositionPage />} />
                <Route path="nonconformities" element={<NonconformitiesPage />} />
                <Route path="nonconformities/:n" element={<NonconformityPage />} />
                <Route path="concessions" element={<ConcessionsPage />} />
                <Route path="safety-flags" element={<SafetyFlagsPage />} />
                <Route path="safety-flags/:n" element={<SafetyFlagPage />} />
                <Route path="keeping" element={<KeepingPage />} />
                <Route path="log" element={<LogRunPage />} />
                <Route path="specimens" element={<SpecimensPage />} />
                <Route path="specimens/:specimen" element={<SpecimenPage />} />
                <Route path="rigs" element={<RigsPage />} />
                <Route path="rigs/:rig" element={<RigPage />} />
                <Route path="rigs/:rig/layout" element={<LayoutPage />} />
                <Route path="planning" element={<PlanningPage />} />
                <Route path="planning/plan" element={<WritePlanPage />} />
                <Route path="references" element={<ReferencesPage />} />
                <Route path="references/:reference" element={<ReferencePage />} />
                <Route path="references/:reference/next" element={<NextReferencePage />} />
                <Route path="choose-reference" element={<ChooseReferencePage />} />
                <Route path="comparisons" element={<ComparisonsPage />} />
                <Route path="comparisons/:comparison" element={<ComparisonPage />} />
                <Route path="comparisons/:comparison/next" element={<DeclareAnewPage />} />
                <Route path="declare-comparison" element={<DeclareComparisonPage />} />
                <Route path="unread" element={<UnreadPage />} />
                <Route path="documents" element={<DocumentsPage />} />
                <Route path="documents/check" element={<CheckDocumentPage />} />
                <Route path="documents/keys" element={<SigningKeysPage />} />
                <Route path="documents/:n" element={<DocumentPage />} />
                <Route path="certificates" element={<CertificatesPage />} />
                <Route path="certificates/:n" element={<CertificatePage />} />
                <Route path="approvals" element={<ApprovalsPage />} />
                <Route path="approvals/:n" element={<ApprovalPage />} />
                <Route path="old-results" element={<OldResultsPage />} />
                <Route path="old-results/:table" element={<OldTablePage />} />
                <Route path="products/:product" element={<ProductPage />} />
                <Route path="ledger" element={<LedgerPage />} />
                <Route path="people" element={<PeoplePage />} />
                <Route path="people/:person" element={<PersonPage />} />
                <Route path="me" element={<MyPage />} />
                <Route path="*" element={<NothingHere />} />
              </Route>
            </Routes>
          </BrowserRouter>
        </DraftsProvider>
      </ReaderProvider>
    </QueryClientProvider>
  );
}
