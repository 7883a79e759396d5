// The keypad: one place at a time, with its picture, and the lines of the form below as the notebook it writes in.

import { begun, endBegun, keepBegun, newId, put, say, send, waiting } from './pocket.js';

// What a keypad can write: a whole number, a decimal, a fraction, a whole number and a fraction.
const FINISHED = /^(\d+|\d*\.\d+|\d+\/\d+|\d+ \d+\/\d+|\d+d\d+m)$/;
const BARE = /^[\d./ -]*\d[\d./ -]*$/;

// What stands after a key was pressed.
export function pressed(value, key) {
  if (key === 'back') return value.replace(/(\/\d+| |.)$/, '');
  if (key === 'and') return /^\d+$/.test(value) ? `${value} ` : value;
  if (key === 'thou') {
    if (!/^\d+$/.test(value)) return value;
    const figures = value.padStart(4, '0');
    return `${figures.slice(0, -3).replace(/^0+$/, '')}.${figures.slice(-3)}`;
  }
  if (key.startsWith('/')) {
    const bare = value.replace(/\/\d+$/, '');
    return /(^|[ ])\d+$/.test(bare) ? bare + key : value;
  }
  if (key === '.') return /[./ ]/.test(value) ? value : `${value}.`;
  if (key === 'd') return /^\d+$/.test(value) ? `${value}d` : value;
  if (key === 'm') return /^\d+d\d+$/.test(value) ? `${value}m` : value;
  // A figure after a fraction or after minutes begins nothing that could be meant.
  return /(\/\d+|m)$/.test(value) ? value : value + key;
}

// What is wrong with a value, as a sentence; nothing if it can be written down. What was typed with other letters is
// for the book to read.
function wrong(value) {
  if (!FINISHED.test(value)) return /^[\d./ dm]*$/.test(value) ? say('unfinished', { value }) : '';
  const [, over, under] = value.match(/(\d+)\/(\d+)$/) ?? [];
  return over && Number(over) >= Number(under) ? say('improper', { value }) : '';
}

export async function keypad(form, me) {
  const lines = [...form.querySelectorAll('.spots input')];
  const piece = document.getElementById('pad').content.cloneNode(true);
  const find = (css) => piece.querySelector(css);
  const [stage, where, name, count, before] = ['.stage', '.where', '.name', '.count', '.stage .before'].map(find);
  const [value, unit, note, pad, go] = ['output', '.unit', '.note', '.pad', '.go'].map(find);
  form.querySelector('h2').before(piece);
  document.querySelector('.bench').classList.add('with-keypad');
  const summary = form.querySelector('.with > summary');
  const [named, typed] = [summary.textContent, form.querySelectorAll('[name=with]')];
  const page = location.pathname + location.search;
  const of = `${me.person} ${page}`;
  const skipped = new Set();
  let at = 0;
  let id = newId();
  unit.textContent = form.dataset.unit;

  const written = () => lines.filter((line) => line.value.trim());
  const open = () => lines.findIndex((line) => !line.value.trim() && !skipped.has(line));
  const left = () => form.querySelector('[name=as_left]:checked');
  const values = () => Object.fromEntries(lines.map((line) => [line.name, line.value]));
  const tools = () => [...typed].map((field) => field.value);
  const instrument = () => tools().map((text) => text.trim()).find((text) => text) ?? '';

  function show() {
    const line = lines[at];
    const place = line.closest('.place');
    const picture = place.querySelector('svg');
    where.replaceChildren(...(picture ? [picture.cloneNode(true)] : []));
    name.textContent = place.querySelector('label').textContent;
    count.textContent = say('of', { n: at + 1, all: lines.length });
    before.textContent = place.querySelector('.before').textContent;
    value.textContent = line.value || say('empty');
    value.classList.toggle('quiet', !line.value);
    unit.hidden = !line.value || !BARE.test(line.value);
    for (const other of lines) other.closest('.place').classList.toggle('now', other === line);
    const all = written().length;
    if (open() < 0 && all) go.textContent = say('keep', { n: all });
    else go.textContent = say(line.value ? 'enter' : 'skip');
    summary.textContent = instrument() ? `${named}: ${instrument()}` : named;
  }

  const remember = () => keepBegun({ of, id, values: values(), left: left()?.value, with: tools() });

  function fill(values, state, instruments) {
    for (const line of lines) line.value = values[line.name] ?? '';
    for (const choice of form.querySelectorAll('[name=as_left]')) choice.checked = choice.value === state;
    typed.forEach((field, n) => (field.value = instruments?.[n] ?? ''));
    at = Math.max(open(), 0);
  }

  // A set that came back is opened again to be put right; it stays in the pocket until it is kept anew.
  async function reopen() {
    const wanted = location.hash.match(/^#change=(\w+)$/)?.[1];
    const set = wanted && (await waiting()).find((one) => one.id === wanted);
    if (!set) return;
    id = set.id;
    fill(set.values, set.take.as_left ? 'yes' : '', set.with);
    for (const name of ['part_temperature', 'measured_by']) form.querySelector(`[name=${name}]`).value = set.take[name] ?? '';
    at = 0;
    show();
    stage.scrollIntoView();
  }

  async function keep() {
    const bad = written().find((line) => wrong(line.value));
    if (bad) {
      at = lines.indexOf(bad);
      show();
      note.textContent = wrong(bad.value);
      return;
    }
    if (!written().length) {
      note.textContent = say('nothing');
      return;
    }
    if (!left()) {
      note.textContent = say('choose');
      form.querySelector('[name=as_left]').focus();
      return;
    }
    const by = instrument();
    const readings = written().map((line) => {
      const [text, own] = line.value.trim().split(' by ');
      const size = BARE.test(text) ? `${text} ${form.dataset.unit}` : text;
      const tool = own ?? by;
      return `${form.dataset.feature}@${line.dataset.place}=${size}${tool ? ` by ${tool}` : ''}`;
    });
    const field = (field) => form.querySelector(`[name=${field}]`)?.value.trim() || undefined;
    const take = {
      engine: field('engine'),
      part: field('part'),
      readings,
      as_left: left().value === 'yes',
      job: field('job'),
      part_temperature: field('part_temperature'),
      measured_by: field('measured_by'),
      insist: field('insist'),
    };
    await put({
      id, take, values: values(), with: tools(), page,
      what: document.title.split(' - ')[0],
      person: me.person, ticket: me.ticket, name: me.name,
      seen: Number(form.dataset.seen), written: Date.now(),
    });
    await endBegun(of);
    const [n, kept] = [readings.length, id];
    id = newId();
    skipped.clear();
    fill({}, undefined, tools());
    form.querySelector('[name=insist]').value = '';
    history.replaceState(null, '', page);
    show();
    note.textContent = say('pocketed', { n, what: form.dataset.what });
    await send();
    const still = (await waiting()).find((set) => set.id === kept);
    if (!still) note.textContent = say('landed', { n, what: form.dataset.what });
    else if (still.came === 'refused') note.textContent = say('asked');
  }

  async function enter() {
    note.textContent = '';
    const line = lines[at];
    const text = line.value.trim();
    if (open() < 0 && written().length) return keep();
    if (text && wrong(line.value)) {
      note.textContent = wrong(line.value);
      return;
    }
    if (!text) skipped.add(line);
    const next = lines.findIndex((other, n) => n > at && !other.value.trim() && !skipped.has(other));
    if (next >= 0) at = next;
    else if (open() >= 0) at = open();
    show();
  }

  pad.addEventListener('click', async (event) => {
    const key = event.target.closest('button')?.dataset.key;
    if (!key) return;
    if (key === 'enter') return enter();
    note.textContent = '';
    const line = lines[at];
    line.value = pressed(line.value, key);
    skipped.delete(line);
    show();
    await remember();
  });
  // A keyboard writes in the lines below; a finger on a line opens it on the keypad.
  lines.forEach((line, n) => {
    line.inputMode = 'none';
    line.addEventListener('focus', () => {
      at = n;
      show();
    });
    line.addEventListener('input', () => {
      skipped.delete(line);
      show();
      remember();
    });
    line.addEventListener('keydown', (event) => {
      if (event.key !== 'Enter') return;
      event.preventDefault();
      enter().then(() => lines[at].focus({ preventScroll: true }));
    });
  });
  form.addEventListener('change', (event) => {
    if (lines.includes(event.target)) return;
    remember();
    show();
    if (event.target.name === 'as_left') {
      note.textContent = '';
      stage.scrollIntoView({ block: 'start' });
    }
  });
  form.addEventListener('submit', (event) => {
    event.preventDefault();
    keep();
  });
  addEventListener('hashchange', reopen);

  const earlier = await begun(of);
  if (earlier && Object.values(earlier.values).some((text) => text)) {
    id = earlier.id;
    fill(earlier.values, earlier.left, earlier.with);
    note.textContent = say('restored');
  }
  show();
  await reopen();
}
