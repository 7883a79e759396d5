// The worker of the bench: keeps its pages and what they load, and shows them where the desk does not answer.
//
// It sees nothing but pages under /bench/ and what those load, keeps nothing that was sent, and forgets every page once
// the desk says that nobody is signed in. Readings are not its business: the pages send them themselves.

const PAGES = 'bench-pages';
const THINGS = 'bench-things';
const NEEDED = [
  '/asset/desk.css', '/asset/mark.svg', '/asset/bench.js', '/asset/keypad.js', '/asset/pocket.js', '/asset/survey.js',
  '/asset/cabin-400.woff2', '/asset/cabin-400-italic.woff2', '/asset/cabin-600.woff2',
  '/asset/fira-mono-400.woff2', '/asset/fira-mono-500.woff2',
];
// How long the desk is waited for before the kept page is shown, in thousandths of a second.
const PATIENCE = 5000;

addEventListener('install', (event) => {
  event.waitUntil(caches.open(THINGS).then((things) => things.addAll(NEEDED)).then(() => skipWaiting()));
});

addEventListener('activate', (event) => {
  event.waitUntil(clients.claim());
});

async function page(request) {
  const pages = await caches.open(PAGES);
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE) });
    if (answer.type === 'opaqueredirect') await caches.delete(PAGES);
    else if (answer.ok) await pages.put(request.url, answer.clone());
    return answer;
  } catch (why) {
    const kept = (await pages.match(request.url)) ?? (await pages.match('/bench/'));
    if (kept) return kept;
    throw why;
  }
}

async function thing(request) {
  const things = await caches.open(THINGS);
  try {
    const answer = await fetch(request, { signal: AbortSignal.timeout(PATIENCE) });
    if (answer.ok) await things.put(request.url, answer.clone());
    return answer;
  } catch (why) {
    const kept = await things.match(request.url);
    if (kept) return kept;
    throw why;
  }
}

addEventListener('fetch', (event) => {
  const { request } = event;
  const { origin, pathname } = new URL(request.url);
  if (request.method !== 'GET' || origin !== location.origin) return;
  if (request.mode === 'navigate') event.respondWith(page(request));
  else if (pathname.startsWith('/asset/')) event.respondWith(thing(request));
});
