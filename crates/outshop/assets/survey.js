// A survey of a sheet with scripts: one square at a time over a keypad, or a line in one go. All of it waits on this device
// until the book has answered for the whole; a square that nobody wrote is not read.

import { begun, endBegun, keepBegun, newId, put, say, send, waiting } from './pocket.js';

const DECIMAL = /^(\d+\.?\d*|\.\d+)$/;
const named = (typed) => {
  const ends = (name) => name.match(/^(\d+)\.\.(\d+)$/)?.slice(1).map(Number);
  const each = (name) => {
    const [from, to] = ends(name) ?? [];
    if (!(from <= to && to - from < 1000)) return [name];
    return Array.from({ length: to - from + 1 }, (_, n) => String(from + n));
  };
  return typed.split(',').map((name) => name.trim()).filter((name) => name).flatMap(each);
};
const isMark = (token) => token === '-' || token === 'x';

export async function survey(sheet, me) {
  const begin = document.querySelector('form.survey-begin');
  const piece = document.getElementById('pad').content.cloneNode(true);
  const form = piece.querySelector('form');
  const find = (css) => form.querySelector(css);
  const { engine, component } = sheet.dataset;
  const page = location.pathname;
  const of = `${me.person} ${page}`;
  const head = document.querySelector('.survey h1').textContent;
  let it = null;
  let at = 0;

  // What the survey before read on a square, and over what a reading there is looked at again.
  const was = new Map([...sheet.content.querySelectorAll('i')].map((one) => [`${one.dataset.row},${one.dataset.column}`, one.dataset]));
  const places = () => {
    const all = [];
    const [outer, inner] = it.down ? [it.columns, it.rows] : [it.rows, it.columns];
    outer.forEach((_, a) => inner.forEach((_, b) => all.push(it.down ? [b, a] : [a, b])));
    return all;
  };
  const wide = () => (it.down ? it.rows : it.columns).length;
  const names = ([row, column]) => ({ row: it.rows[row], column: it.columns[column] });
  const key = (place) => `${it.rows[place[0]]},${it.columns[place[1]]}`;
  const cell = ([row, column]) => it.cells[row][column];
  const write = ([row, column], text) => (it.cells[row][column] = text);
  const lineName = (line) => say(it.down ? 'line-column' : 'line-row', { name: (it.down ? it.columns : it.rows)[line] });
  const counts = () => {
    const all = it.cells.flat();
    const n = all.filter((token) => token && !isMark(token)).length;
    const marked = all.filter(isMark).length;
    return { n, marked, open: all.length - n - marked, all: all.length };
  };
  const note = (text) => (find('.note').textContent = text);
  const remember = () => keepBegun({ of, ...it });

  // A reading that is strange is said to be, and kept: it is never dropped.
  function strange(place) {
    const value = Number(cell(place));
    if (!cell(place) || isMark(cell(place))) return '';
    const known = was.get(key(place));
    const unit = it.take.unit;
    if (known?.[unit] && value > Number(known[unit])) return known.why;
    const built = sheet.dataset[unit === 'mm' ? 'builtMm' : 'builtIn'];
    return built && value > Number(built) ? say('thicker') : '';
  }

  function show() {
    const all = places();
    const place = all[at];
    const token = cell(place);
    const known = was.get(key(place));
    find('.name').textContent = say('square', names(place));
    find('.count').textContent = say('of', { n: at + 1, all: all.length });
    find('.stage .before').textContent = known
      ? say('was-read', { was: known.was, unit: sheet.dataset.unit, on: sheet.dataset.on })
      : say('not-before');
    const shown = { '-': say('is-not-read'), x: say('is-no-plate'), '': say('empty') }[token] ?? token;
    find('output').textContent = shown;
    find('output').classList.toggle('quiet', !token || isMark(token));
    find('.unit').textContent = !token || isMark(token) ? '' : it.take.unit;
    const why = strange(place);
    note(why ? say('survey-state', { why }) : '');
    find('#square-word').value = it.words[key(place)] ?? '';
    find('.go').textContent = say('next-square');
    find('.line-name').textContent = lineName(Math.floor(at / wide()));
    const total = counts();
    find('.total').textContent = say('total', total);
    find('.keep').textContent = say('survey-keep', { n: total.n, open: total.open + total.marked });
    const lines = Array.from({ length: all.length / wide() }, (_, line) => {
      const made = document.createElement('button');
      const own = all.slice(line * wide(), (line + 1) * wide());
      made.type = 'button';
      made.textContent = say('line-state', { name: lineName(line), n: own.filter((one) => cell(one)).length, all: own.length });
      if (line === Math.floor(at / wide())) made.setAttribute('aria-current', 'true');
      made.onclick = () => go(line * wide());
      return made;
    });
    find('.lines').replaceChildren(...lines);
  }

  function go(to) {
    const all = places();
    at = Math.min(Math.max(to, 0), all.length - 1);
    show();
  }

  // The next square that nobody wrote, after this one, or else from the beginning.
  function next() {
    const all = places();
    const open = (place) => !cell(place);
    const after = all.findIndex((place, n) => n > at && open(place));
    const to = after >= 0 ? after : all.findIndex(open);
    if (to >= 0) return go(to);
    go(at + 1);
    if (!find('.note').textContent) note(say('survey-all'));
  }

  function pressed(token, figure) {
    const value = isMark(token) ? '' : token;
    if (figure === 'back') return value.slice(0, -1);
    if (figure === '.') return value.includes('.') ? value : `${value}.`;
    return value + figure;
  }

  async function press(what) {
    const place = places()[at];
    const token = cell(place);
    const whole = !token || isMark(token) || DECIMAL.test(token) && Number(token) > 0;
    if (['previous', 'next', 'enter'].includes(what)) {
      if (!whole) return note(say('no-decimal', { value: token }));
      return what === 'enter' ? next() : go(at + (what === 'next' ? 1 : -1));
    }
    if (what === '-' || what === 'x') {
      write(place, what);
      await remember();
      return next();
    }
    write(place, pressed(token, what));
    show();
    await remember();
  }

  async function writeLine() {
    const line = Math.floor(at / wide());
    const own = places().slice(line * wide(), (line + 1) * wide());
    const tokens = find('#square-line').value.split(/[\s,;]+/).filter((token) => token);
    const wrong = tokens.find((token) => !isMark(token) && !(DECIMAL.test(token) && Number(token) > 0));
    if (wrong) return note(say('no-decimal', { value: wrong }));
    if (tokens.length !== own.length) return note(say('not-so-many', { n: tokens.length, all: own.length }));
    own.forEach((place, n) => write(place, tokens[n]));
    await remember();
    find('#square-line').value = '';
    go(Math.min((line + 1) * wide(), places().length - 1));
    const strangest = own.find(strange);
    const again = strangest ? ` ${say('square', names(strangest))}: ${say('survey-state', { why: strange(strangest) })}` : '';
    note(say('line-written', { name: lineName(line) }) + again);
  }

  async function keep() {
    const { n } = counts();
    if (!n) return note(say('nothing-read'));
    const bad = places().findIndex((place) => cell(place) && !isMark(cell(place)) && !(DECIMAL.test(cell(place)) && Number(cell(place)) > 0));
    if (bad >= 0) {
      go(bad);
      return note(say('no-decimal', { value: cell(places()[bad]) }));
    }
    const rows = it.rows.map((name, row) => `${name}=${it.cells[row].map((token) => token || '-').join(' ')}`);
    const remarks = Object.entries(it.words).filter(([, words]) => words.trim()).map(([square, words]) => `${square}=${words.trim()}`);
    const { id } = it;
    await put({
      id, n, page, what: head, state: it,
      survey: { ...it.take, rows, columns: it.columns.join(','), remarks },
      person: me.person, ticket: me.ticket, name: me.name, seen: 0, written: it.began,
    });
    await endBegun(of);
    history.replaceState(null, '', page);
    close();
    tell(say('survey-pocketed', { what: component }));
    await send();
    const still = (await waiting()).find((set) => set.id === id);
    if (!still) tell(say('survey-landed', { what: component }));
    else if (still.came === 'refused') tell(say('survey-asked'));
  }

  // Said over the page, where the keypad was.
  function tell(text) {
    const line = document.querySelector('.survey > .said') ?? document.createElement('p');
    line.className = 'said';
    line.setAttribute('role', 'status');
    line.textContent = text;
    document.querySelector('.survey .age').after(line);
    line.scrollIntoView({ block: 'center' });
  }

  function close() {
    it = null;
    form.remove();
    begin?.classList.remove('hidden');
  }

  function open(what) {
    it = what;
    begin?.classList.add('hidden');
    document.querySelector('.without-scripts')?.remove();
    document.querySelector('.survey > .said')?.remove();
    document.querySelector('.survey .age').after(form);
    const first = places().findIndex((place) => !cell(place));
    go(first < 0 ? 0 : first);
  }

  // The form that begins one: what it says is asked of the book with the squares, and here only that it is whole.
  begin?.addEventListener('submit', async (event) => {
    event.preventDefault();
    const field = (name) => begin.querySelector(`[name=${name}]`)?.value.trim() || undefined;
    const chosen = (name) => begin.querySelector(`[name=${name}]:checked`)?.value;
    const [rows, columns] = [named(field('rows') ?? ''), named(field('columns') ?? '')];
    const odd = [rows, columns].some((all) => !all.length || new Set(all).size < all.length || all.some((name) => name.includes('=')));
    begin.querySelector('.note').textContent = odd ? say('odd-names') : '';
    if (odd) return;
    const take = { engine, component, unit: chosen('unit') };
    for (const name of ['source', 'instrument', 'checked', 'part_temperature', 'square', 'spot']) take[name] = field(name);
    open({
      id: newId(), began: Date.now(), down: chosen('direction') === 'down', rows, columns, take, words: {},
      cells: rows.map(() => columns.map(() => '')),
    });
    await remember();
  });
  form.addEventListener('submit', (event) => event.preventDefault());
  find('.pad').addEventListener('click', (event) => {
    const what = event.target.closest('button')?.dataset.key;
    if (what) press(what);
  });
  // A keyboard at a desk writes figures too.
  document.addEventListener('keydown', (event) => {
    if (!it || event.ctrlKey || event.metaKey || event.altKey || /INPUT|TEXTAREA|SUMMARY|BUTTON|A/.test(event.target.tagName)) return;
    const what = { Enter: 'enter', Backspace: 'back', ArrowLeft: 'previous', ArrowRight: 'next' }[event.key] ?? event.key;
    if (!/^([\d.x-]|enter|back|previous|next)$/.test(what)) return;
    event.preventDefault();
    press(what);
  });
  find('#square-word').addEventListener('input', () => {
    it.words[key(places()[at])] = find('#square-word').value;
    remember();
  });
  find('.write-line').onclick = writeLine;
  find('.keep').onclick = keep;
  find('.drop').onclick = async ({ target }) => {
    if (!target.dataset.sure) {
      target.dataset.sure = 'yes';
      target.textContent = say('survey-sure');
      return;
    }
    await endBegun(of);
    // What was begun without scripts lies at the desk.
    const body = new URLSearchParams({ verb: 'survey-drop', engine, component, sure: 'yes' });
    if (sheet.dataset.begun) await fetch('/bench/survey', { method: 'POST', body }).catch(() => {});
    location.replace(page);
  };

  // One that came back is opened again to be put right; it stays in the pocket until it is kept anew.
  async function reopen() {
    const wanted = location.hash.match(/^#change=(\w+)$/)?.[1];
    const set = wanted && (await waiting()).find((one) => one.id === wanted);
    if (set) open(set.state);
  }
  addEventListener('hashchange', reopen);

  const earlier = await begun(of);
  const atDesk = sheet.dataset.begun && JSON.parse(sheet.dataset.begun);
  if (earlier) {
    open(earlier);
    note(say('restored'));
  } else if (atDesk) {
    const { remarks, rows, columns, file, write: _, sheet: none, ...take } = atDesk.take;
    open({ ...atDesk, take, began: Date.now() - Number(sheet.dataset.daysAgo) * 86400000 });
  }
  await reopen();
}
