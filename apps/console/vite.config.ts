import react from '@vitejs/plugin-react';
import { defineConfig } from 'vite';

export default defineConfig({
  plugins: [react()],
  // The rooms are used by their sources, so that a page never shows what an older build computed.
  resolve: { conditions: ['source', 'module', 'browser', 'development|production'] },
  build: {
    // Browsers that know light-dark(); the colours of both lights stand in one place.
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'],
    // Data addresses would need a wider content security policy than 'self'.
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    // The tables of units alone are over 200 kB; the pages are served from the lab's own network.
    chunkSizeWarningLimit: 1000,
  },
  server: { proxy: { '/api': 'http://127.0.0.1:3000' } },
});
