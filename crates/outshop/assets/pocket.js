// The pocket: readings and surveys that were written on this device and have not reached the book, and those that have.
//
// A set of readings leaves the pocket only when the book has answered for it, or when somebody takes it out by hand.
// Its id is made here and never changes, so a set that is sent twice is saved once.

const STORE = 'outshop-bench';
const COOKIE = 'outshop_bench=';
const SEND = '/bench/send';
// Sets sent at once: few enough for a poor signal.
const AT_ONCE = 25;
// How long the book may take to answer, and how long until it is asked again, in thousandths of a second.
const PATIENCE = 20000;
const AGAIN = 15000;
// How many sets that reached the book are remembered.
const REMEMBERED = 60;

// A sentence of the page, by its word, with what is filled in.
// Words that differ between one and several stand with a bar between: the first are of one.
export function say(word, fill = {}) {
  const found = document.getElementById('said').content.querySelector(`[data-word="${word}"]`);
  const [one, several = one] = found.textContent.split(' | ');
  return (fill.n === 1 ? one : several).replace(/\{(\w+)\}/g, (_, name) => fill[name] ?? '');
}

// Who is at this device, as the book last said: nobody after a sign-out.
export function who() {
  const kept = document.cookie.split('; ').find((one) => one.startsWith(COOKIE));
  const [person, ticket, ...name] = kept ? kept.slice(COOKIE.length).split('.') : [];
  return ticket ? { person, ticket, name: decodeURIComponent(name.join('.')) } : null;
}

// An id for an entry: 128 bits of chance.
export function newId() {
  const bytes = crypto.getRandomValues(new Uint8Array(16));
  return [...bytes].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}

function opened() {
  return new Promise((yes, no) => {
    const asked = indexedDB.open(STORE, 1);
    asked.onupgradeneeded = () => {
      asked.result.createObjectStore('waiting', { keyPath: 'id' });
      asked.result.createObjectStore('kept', { keyPath: 'id' });
      asked.result.createObjectStore('begun', { keyPath: 'of' });
    };
    asked.onsuccess = () => yes(asked.result);
    asked.onerror = () => no(asked.error);
  });
}

// One change of what this device keeps: all of it or nothing, and on its disk before it is believed.
async function change(names, mode, act) {
  const store = await opened();
  try {
    return await new Promise((yes, no) => {
      const under = store.transaction(names, mode, { durability: 'strict' });
      const asked = act(...names.map((name) => under.objectStore(name)));
      under.oncomplete = () => yes(asked?.result);
      under.onabort = () => no(under.error);
    });
  } finally {
    store.close();
  }
}

export const waiting = async () => {
  const all = await change(['waiting'], 'readonly', (sets) => sets.getAll());
  return all.sort((a, b) => a.written - b.written);
};
const kept = async () => {
  const all = await change(['kept'], 'readonly', (sets) => sets.getAll());
  return all.sort((a, b) => b.at - a.at);
};
export const put = (set) => change(['waiting'], 'readwrite', (sets) => sets.put(set));
const takeOut = (id) => change(['waiting'], 'readwrite', (sets) => sets.delete(id));

// What was begun on a page and is not in the pocket yet, for whoever wrote it.
export const begun = (of) => change(['begun'], 'readonly', (all) => all.get(of));
export const keepBegun = (it) => change(['begun'], 'readwrite', (all) => all.put(it));
export const endBegun = (of) => change(['begun'], 'readwrite', (all) => all.delete(of));

// What of a set the book is asked, and how many readings it holds: those of a part, or the squares of a survey.
const asks = ({ take, survey }) => JSON.stringify([take, survey]);
const readings = (set) => set.n ?? set.take.readings.length;

// Whether this browser keeps anything for us at all.
export async function works() {
  try {
    await waiting();
    return true;
  } catch {
    return false;
  }
}

// What the book said of some sets: those it has leave the pocket for the list of what was kept, in one change. A set that
// was changed meanwhile, here or in another tab, is left as it is now: it is sent again.
function settle(sets, fates) {
  return change(['waiting', 'kept'], 'readwrite', (waits, done) => {
    for (const fate of fates) {
      const sent = sets.find((one) => one.id === fate.id);
      const asked = waits.get(fate.id);
      asked.onsuccess = () => {
        const set = asked.result;
        if (!sent || !set || asks(set) !== asks(sent)) return;
        if (fate.fate === 'kept' || fate.fate === 'already') {
          waits.delete(set.id);
          const { id, what, page } = set;
          done.put({ id, what, page, n: readings(set), entry: fate.entry, said: fate.said, at: Date.now() });
        } else {
          waits.put({ ...set, came: fate.fate, said: fate.said });
        }
      };
    }
  });
}

let clock = null;
let reached = true;

// Hands in everything that is not waiting for a person's word. Two tabs may do so at once: the book saves an id once.
async function handIn() {
  await show();
  const due = (await waiting()).filter((set) => set.came !== 'refused');
  for (let from = 0; from < due.length; from += AT_ONCE) {
    const some = due.slice(from, from + AT_ONCE);
    const sets = some.map(({ id, person, ticket, written, seen, take, survey }) => ({ id, person, ticket, written, seen, take, survey }));
    try {
      const answer = await fetch(SEND, {
        method: 'POST',
        headers: { 'content-type': 'application/json' },
        body: JSON.stringify({ now: Date.now(), sets }),
        signal: AbortSignal.timeout(PATIENCE),
      });
      if (!answer.ok) throw new Error(String(answer.status));
      const told = await answer.json();
      clock = told.clock;
      reached = true;
      localStorage.setItem(STORE, String(Date.now()));
      await settle(some, told.sets);
    } catch {
      reached = false;
      break;
    }
  }
  const old = (await kept()).slice(REMEMBERED);
  if (old.length) await change(['kept'], 'readwrite', (sets) => old.forEach((set) => void sets.delete(set.id)));
  await show();
}

let under = null;
let more = false;

// Hands in what waits. Whoever asks while that is under way has it done once more.
export function send() {
  more = true;
  under ??= (async () => {
    while (more) {
      more = false;
      await handIn();
    }
  })().finally(() => {
    under = null;
  });
  return under;
}

// Asks again by itself while the page is looked at.
export function keepSending() {
  setInterval(() => {
    if (!under && document.visibilityState === 'visible') send();
  }, AGAIN);
  addEventListener('online', () => send());
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && send());
  return send();
}

const hour = (at) => new Date(at).toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
const moment = (at) => {
  const day = new Date(at).toLocaleDateString('en-GB', { weekday: 'short', day: 'numeric', month: 'short' });
  return `${hour(at)}, ${day}`;
};
const today = (at) => new Date(at).toDateString() === new Date().toDateString();

function element(name, text, of = {}) {
  const made = document.createElement(name);
  if (text) made.textContent = text;
  return Object.assign(made, of);
}

// A sentence of the book as its own pages set it: what stands between backticks as code.
function worded(name, text, of) {
  const pieces = text.split('`');
  if (pieces.length % 2 === 0) return element(name, text, of);
  const made = element(name, '', of);
  made.append(...pieces.map((piece, at) => (at % 2 ? element('code', piece) : piece)));
  return made;
}

const named = (set) => ({
  what: set.what,
  who: set.name,
  n: readings(set),
  state: set.survey ? '' : say(set.take.as_left ? 'as-left' : 'as-found'),
  when: moment(set.written),
});

// A set that came back: what the book asks, and the three things that can be done about it.
function cameBack(set) {
  const piece = element('li', '', { className: 'came-back' });
  piece.dataset.id = set.id;
  piece.append(element('b', say(set.survey ? 'survey-back-head' : 'back-head', named(set)), { className: 'need' }));
  piece.append(element('p', say(set.survey ? 'survey-back' : 'back')));
  const list = element('ul');
  for (const line of (set.said ?? '').split('\n')) {
    if (/^\s*- /.test(line)) list.append(worded('li', line.replace(/^\s*- /, '')));
    else if (line.trim()) piece.append(worded('p', line));
  }
  const written = set.survey ? set.survey.rows : set.take.readings.map((one) => one.split('@')[1].replace('=', ' '));
  piece.append(list, element('p', written.join(', '), { className: 'fig' }));
  const label = element('label', say('why'));
  const why = element('input', '', { type: 'text', value: set.take?.insist ?? '' });
  label.append(why);
  const insist = element('button', say('insist'), { type: 'button', className: 'insist' });
  insist.onclick = async () => {
    if (!why.value.trim()) return why.focus();
    await put({ ...set, came: undefined, said: undefined, take: { ...set.take, insist: why.value.trim() } });
    await send();
  };
  const again = element('a', say('change'), { href: `${set.page}#change=${set.id}` });
  const out = element('button', say('give-up'), { type: 'button', className: 'plain give-up' });
  out.onclick = async () => {
    if (out.dataset.sure) {
      await takeOut(set.id);
      await show();
    } else {
      out.dataset.sure = 'yes';
      out.textContent = say('sure');
    }
  };
  // A survey is put right or taken out; there is nothing to insist on.
  piece.append(...(set.survey ? [] : [label, insist]), again, out);
  return piece;
}

// What has reached the book, what waits, and what came back. A line somebody is writing in is left as it is.
export async function show() {
  const section = document.querySelector('section.pocket');
  if (section.contains(document.activeElement) && document.activeElement.value) return;
  const [sets, done] = [await waiting(), await kept()];
  const back = sets.filter((set) => set.came === 'refused');
  const waits = sets.filter((set) => set.came !== 'refused');
  const sum = (all) => all.reduce((sum, set) => sum + readings(set), 0);
  const list = element('ul', '', { className: 'plain' });
  for (const set of back) list.append(cameBack(set));
  for (const set of waits) {
    const line = element('li', say(set.survey ? 'survey-waits' : 'waits', named(set)), { className: 'waits' });
    if (set.came === 'whose') line.append(element('p', say('whose', named(set)), { className: 'need' }));
    else if (set.said) line.append(worded('p', set.said));
    list.append(line);
  }
  for (const set of done.filter((set) => today(set.at)).slice(0, 5)) {
    const line = element('li', say('kept', set), { className: 'in-book' });
    if (set.said) line.append(element('p', set.said, { className: 'need' }));
    list.append(line);
  }
  const status = element('div', '', { className: 'status' });
  status.setAttribute('role', 'status');
  status.append(element('p', say('in-book', { n: sum(done.filter((set) => today(set.at))) })));
  status.append(element('p', waits.length ? say('waiting', { n: sum(waits) }) : say('none-waiting')));
  if (!reached && waits.length) {
    const heard = Number(localStorage.getItem(STORE));
    status.append(element('p', heard ? say('no-signal', { when: moment(heard) }) : say('never-answered'), { className: 'need' }));
  }
  if (clock) status.append(element('p', clock, { className: 'need' }));
  section.replaceChildren(section.querySelector('h2'), status, list);
  section.hidden = false;
}
