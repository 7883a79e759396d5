// At the way in nobody is signed in: the pages of the bench that this device kept are forgotten. What waits in the
// pocket stays, and is handed in as whoever wrote it.

globalThis.caches?.delete('bench-pages');
