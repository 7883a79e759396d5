// The pages of the bench with scripts: who is here, the keypad, the pocket, and a worker that keeps the pages for when
// there is no signal. Without scripts the form of the page is sent as it stands.

import { keypad } from './keypad.js';
import { keepSending, say, who, works } from './pocket.js';
import { survey } from './survey.js';

const PAGES = 'bench-pages';

function note(text) {
  const line = document.createElement('p');
  line.className = 'said';
  line.setAttribute('role', 'status');
  line.textContent = text;
  document.querySelector('.bench').prepend(line);
}

// Keeps pages on this device; gives how many of them are there afterward.
async function keepPages(paths) {
  const pages = await caches.open(PAGES);
  let there = 0;
  for (const path of paths) {
    try {
      const page = await fetch(path, { headers: { accept: 'text/html' } });
      if (page.ok && !page.redirected) await pages.put(path, page);
    } catch {
      // No signal: what was kept before still counts.
    }
    if (await pages.match(path)) there += 1;
  }
  return there;
}

function takeAlong() {
  const list = document.querySelector('.along');
  const button = document.getElementById('pad').content.querySelector('.take')?.cloneNode(true);
  if (!list || !button) return;
  button.onclick = async () => {
    const paths = [...document.querySelectorAll('.along a')].map((link) => link.getAttribute('href'));
    const n = await keepPages([location.pathname + location.search, ...paths]);
    note(say(n > paths.length ? 'taken' : 'not-taken', { n }));
  };
  list.before(button);
}

async function worker() {
  if (!navigator.serviceWorker) return;
  await navigator.serviceWorker.register('/bench/worker.js', { scope: '/bench/' });
  await navigator.serviceWorker.ready;
  // The page that brought the worker came before it could be kept.
  const pages = await caches.open(PAGES);
  const missing = ['/bench/', location.pathname + location.search];
  for (const path of missing) if (!(await pages.match(path))) await keepPages([path]);
  document.documentElement.dataset.worker = 'ready';
}

async function begin() {
  const form = document.querySelector('form.at-bench');
  const sheet = document.getElementById('survey');
  const me = who();
  if (!me) {
    for (const it of document.querySelectorAll('.bench form.day')) it.remove();
    note(say('nobody'));
    return;
  }
  // A page kept from before may bear the name of whoever had this device then.
  const name = document.querySelector('.who a[href="/me"]');
  if (name) name.textContent = me.name;
  if (!(await works())) {
    note(say('no-store'));
    return;
  }
  if (form) await keypad(form, me);
  if (sheet) await survey(sheet, me);
  takeAlong();
  await keepSending();
  await worker();
}

begin();
