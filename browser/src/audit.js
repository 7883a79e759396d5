// What is wrong with the page as it stands on the screen, in sentences. Run in the page by the driver.
// arguments: the least height of a button or field of a form, in pixels; the width of the screen.
const [least, wide] = arguments;
const wrong = [];

const named = (el) => {
  let name = el.tagName.toLowerCase();
  if (el.id) name += '#' + el.id;
  else if (typeof el.className === 'string' && el.className) name += '.' + el.className.trim().replace(/\s+/g, '.');
  else if (el.className && el.className.baseVal) name += '.' + el.className.baseVal.trim().replace(/\s+/g, '.');
  const up = el.parentElement;
  if (up && !el.id && up !== document.body) {
    let above = up.tagName.toLowerCase();
    if (up.id) above += '#' + up.id;
    else if (typeof up.className === 'string' && up.className) above += '.' + up.className.trim().replace(/\s+/g, '.');
    name = above + ' > ' + name;
  }
  const text = (el.textContent || '').trim().replace(/\s+/g, ' ').slice(0, 40);
  return text ? `${name} "${text}"` : name;
};
const seen = (el) => el.checkVisibility({ contentVisibilityAuto: true, visibilityProperty: true, opacityProperty: true });

// Sideways scroll.
const doc = document.documentElement;
if (doc.scrollWidth > wide) {
  const far = [...document.querySelectorAll('body *')].filter(seen).filter((el) => {
    const box = el.getBoundingClientRect();
    if (box.right <= wide + 1) return false;
    for (let up = el.parentElement; up; up = up.parentElement) if (getComputedStyle(up).overflowX !== 'visible') return false;
    return true;
  });
  wrong.push(`scrolls sideways to ${doc.scrollWidth} px, by ${far.length ? named(far[far.length - 1]) : 'something'}`);
}

// Where text stands: a box for each line of each piece, cut to what its surroundings show.
const cutters = (el) => {
  const found = [];
  for (let up = el; up && up !== document.body; up = up.parentElement) {
    const svg = up.tagName === 'svg';
    const overflow = getComputedStyle(up).overflowX;
    if (svg || overflow !== 'visible') found.push({ box: up.getBoundingClientRect(), hard: svg || overflow === 'hidden' || overflow === 'clip', el: up });
  }
  return found;
};
const pieces = [];
const walker = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
while (walker.nextNode()) {
  const node = walker.currentNode;
  const el = node.parentElement;
  if (!node.data.trim() || !el || !seen(el) || ['SCRIPT', 'STYLE', 'TITLE', 'DESC', 'OPTION', 'TEXTAREA'].includes(el.tagName.toUpperCase())) continue;
  // What is typed or to be typed is set as code; a backtick is how our sentences are written, not how they are read.
  if (node.data.includes('`')) wrong.push(`a raw backtick in ${named(el)}`);
  const style = getComputedStyle(el);
  let size = parseFloat(style.fontSize);
  const inSvg = el instanceof SVGElement;
  if (inSvg) {
    const m = el.getScreenCTM && el.getScreenCTM();
    if (m) size *= Math.hypot(m.a, m.b);
  }
  const range = document.createRange();
  range.selectNodeContents(node);
  const cut = cutters(el);
  let shown = false;
  for (const r of range.getClientRects()) {
    if (r.width < 1 || r.height < 1 || r.right < 0) continue;
    let [left, right, top, bottom] = [r.left, r.right, r.top, r.bottom];
    for (const c of cut) {
      if (c.hard && (r.left < c.box.left - 2 || r.right > c.box.right + 2 || r.top < c.box.top - 3 || r.bottom > c.box.bottom + 3)) {
        wrong.push(`text is cut off by ${named(c.el).slice(0, 60)}: ${named(el)}`);
      }
      left = Math.max(left, c.box.left); right = Math.min(right, c.box.right);
      top = Math.max(top, c.box.top); bottom = Math.min(bottom, c.box.bottom);
    }
    if (right - left < 1 || bottom - top < 1) continue;
    shown = true;
    // Letters fill the middle of their line; what a line leaves free above and below may meet.
    const lead = (bottom - top) * 0.2;
    pieces.push({ left: left + 1, right: right - 1, top: top + lead, bottom: bottom - lead, node, el });
  }
  if (shown && size < 13.95) wrong.push(`text of ${size.toFixed(1)} px: ${named(el)}`);
}
pieces.sort((a, b) => a.top - b.top);
const told = new Set();
for (let i = 0; i < pieces.length; i += 1) {
  const a = pieces[i];
  for (let j = i + 1; j < pieces.length && pieces[j].top < a.bottom; j += 1) {
    const b = pieces[j];
    if (a.node === b.node || b.left >= a.right || a.left >= b.right) continue;
    const key = named(a.el) + named(b.el);
    if (!told.has(key)) wrong.push(`text stands over text: ${named(a.el)} and ${named(b.el)}`);
    told.add(key);
  }
}

// Targets a finger or a mouse must hit. A link inside a line of words is as tall as its line. A place touched in a
// picture may be small where a link of words leads to the same.
const inWords = new Set([...document.querySelectorAll('a[href]')].filter((a) => !a.closest('svg') && seen(a)).map((a) => a.getAttribute('href')));
for (const el of document.querySelectorAll('a[href], button, summary, input:not([type=hidden]), select, textarea')) {
  if (!seen(el)) continue;
  let box = el.getBoundingClientRect();
  if (box.right < 0 || box.bottom < 0) continue;
  if (el.closest('svg') && inWords.has(el.getAttribute('href'))) continue;
  const label = el.closest('label');
  if (label) box = label.getBoundingClientRect();
  let [w, h] = [box.width, box.height];
  const style = getComputedStyle(el);
  if (el.tagName === 'A' && style.display === 'inline') h = Math.max(h, parseFloat(getComputedStyle(el.parentElement).lineHeight) || 0);
  const want = el.closest('form') && el.tagName !== 'A' ? least : 24;
  if (w < 23.9 || h < want - 0.1) wrong.push(`a target of ${w.toFixed(0)} by ${h.toFixed(0)} px, ${want} wanted: ${named(el)}`);
}
return wrong;
