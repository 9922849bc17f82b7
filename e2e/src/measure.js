// Measures the page as it is drawn and returns what breaks a rule.
// Called by the driver as the body of a function with one argument.
const demands = arguments[0];
const faults = [];
const told = new Set();

const describe = (element) => {
  const words = (element.textContent || element.value || '').trim().replace(/\s+/g, ' ').slice(0, 40);
  const name = element.getAttribute('name') ? `[name=${element.getAttribute('name')}]` : '';
  const kind = element.getAttribute('class') ? `.${element.getAttribute('class').trim().split(/\s+/).join('.')}` : '';
  return `<${element.tagName.toLowerCase()}${element.id ? '#' + element.id : ''}${kind}${name}> "${words}"`;
};
const fault = (rule, element, detail) => {
  const place = describe(element);
  const key = rule + place + detail;
  if (!told.has(key)) { told.add(key); faults.push({ rule, place, detail }); }
};
const drawn = (element) => {
  if (!element.checkVisibility({ opacityProperty: true, visibilityProperty: true })) return false;
  const box = element.getBoundingClientRect();
  // Text for screen readers only is cut to one pixel, and a jump link may
  // stand outside the page until it has the focus.
  return box.width > 1 && box.height > 1 && box.right + scrollX > 0 && box.bottom + scrollY > 0;
};
const round = (number) => Math.round(number * 10) / 10;

// A link inside a sentence keeps the height of its line: the one exception
// that the accessibility guidelines make for target sizes.
const inSentence = (link) => {
  if (link.tagName !== 'A' || link.closest('nav') || getComputedStyle(link).display !== 'inline') return false;
  let block = link.parentElement;
  while (block && getComputedStyle(block).display.startsWith('inline')) block = block.parentElement;
  if (!block) return false;
  let rest = block.textContent;
  for (const other of block.querySelectorAll('a')) rest = rest.replace(other.textContent, '');
  return /\p{L}{2}/u.test(rest);
};
// A tick box or radio is pressed by its words as well; one that is drawn by its
// words alone, with the box itself laid over them unseen, is as large as these.
const boxOf = (control) => {
  const parts = drawn(control) ? [control.getBoundingClientRect()] : [];
  if (control.matches('input[type=checkbox], input[type=radio]')) {
    for (const label of control.labels || []) if (drawn(label)) parts.push(label.getBoundingClientRect());
  }
  const edge = (pick, side) => pick(...parts.map((part) => part[side]));
  return {
    left: edge(Math.min, 'left') + scrollX, top: edge(Math.min, 'top') + scrollY,
    right: edge(Math.max, 'right') + scrollX, bottom: edge(Math.max, 'bottom') + scrollY };
};
const isDrawnControl = (control) => drawn(control)
  || (control.matches('input[type=checkbox], input[type=radio]') && [...(control.labels || [])].some(drawn));
const floating = (element) => {
  for (let at = element; at && at !== document.body; at = at.parentElement) {
    const position = getComputedStyle(at).position;
    if (position === 'fixed' || position === 'sticky') return at;
  }
  return null;
};
const nameOf = (control) => {
  const byId = (control.getAttribute('aria-labelledby') || '').split(/\s+/)
    .map((id) => document.getElementById(id)?.textContent || '').join(' ');
  const said = [control.getAttribute('aria-label') || '', byId];
  if (control.matches('input, select, textarea')) {
    for (const label of control.labels || []) said.push(label.textContent);
    if (control.matches('[type=submit], [type=button], [type=reset]')) said.push(control.value);
  } else {
    said.push(control.textContent);
    for (const picture of control.querySelectorAll('img[alt]')) said.push(picture.alt);
  }
  return said.join(' ').trim();
};
const meet = (one, other) => Math.min(one.right, other.right) - Math.max(one.left, other.left) > 1
  && Math.min(one.bottom, other.bottom) - Math.max(one.top, other.top) > 1;

let controlCount = 0;
let textCount = 0;
let largest = 0;

const look = () => {
  // 1. Nothing is wider than the window, except inside a part that scrolls by itself.
  const width = document.documentElement.scrollWidth;
  if (width > demands.width) {
    fault('wide', document.documentElement, `${width} px in a window of ${demands.width}`);
    for (const element of document.body.querySelectorAll('*')) {
      const box = element.getBoundingClientRect();
      if (box.width > 0 && box.right + scrollX > demands.width + 1 && element.childElementCount === 0) {
        fault('wide', element, `reaches to ${round(box.right + scrollX)} px`);
      }
    }
  }

  // 2. Controls: size, name, tab order.
  const controls = [...document.querySelectorAll(
    'a[href], button, input:not([type=hidden]), select, textarea, summary, [role=button]')].filter(isDrawnControl);
  controlCount = Math.max(controlCount, controls.length);
  const boxes = controls.map((control) => ({
    control, box: boxOf(control), over: floating(control), sentence: inSentence(control) }));
  for (const { control, box, sentence } of boxes) {
    const wide = box.right - box.left, high = box.bottom - box.top;
    if (!sentence && (wide < demands.least_control - 0.5 || high < demands.least_control - 0.5)) {
      fault('small', control, `${round(wide)} x ${round(high)} px`);
    }
    if (nameOf(control) === '') fault('unnamed', control, 'no label');
    if (control.tabIndex > 0) fault('order', control, `tabindex ${control.tabIndex}`);
  }

  // 3. No control over another. Bars that float over the page are looked at below.
  for (let i = 0; i < boxes.length; i++) {
    for (let j = i + 1; j < boxes.length; j++) {
      const one = boxes[i], other = boxes[j];
      if (one.over || other.over || one.sentence || other.sentence) continue;
      if (one.control.contains(other.control) || other.control.contains(one.control)) continue;
      if (meet(one.box, other.box)) fault('overlap', one.control, `meets ${describe(other.control)}`);
    }
  }

  // 4. The focus goes down the page, or to the next column, never back up.
  const flow = boxes.filter(({ over, sentence }) => !over && !sentence);
  for (let i = 1; i < flow.length; i++) {
    const before = flow[i - 1].box, after = flow[i].box;
    if (after.bottom <= before.top && after.left < before.right - 1) {
      fault('order', flow[i].control, `comes after ${describe(flow[i - 1].control)}, stands above it`);
    }
  }

  // 5. At the end of the page nothing stays under a floating bar.
  const was = scrollY;
  scrollTo({ top: document.documentElement.scrollHeight, behavior: 'instant' });
  for (const bar of new Set(boxes.map(({ over }) => over).filter(Boolean))) {
    if (getComputedStyle(bar).position !== 'fixed') continue;
    const cover = bar.getBoundingClientRect();
    for (const { control, over } of boxes) {
      if (!over && meet(cover, control.getBoundingClientRect())) {
        fault('covered', control, `under ${describe(bar)} at the end of the page`);
      }
    }
  }

  // 6. Each control can be reached by a finger: what lies on top in its middle is itself.
  for (const { control, sentence } of boxes) {
    if (sentence) continue;
    let target = control;
    if (!drawn(control)) target = [...control.labels].find(drawn);
    target.scrollIntoView({ block: 'center', inline: 'center', behavior: 'instant' });
    const box = target.getBoundingClientRect();
    const top = document.elementFromPoint((box.left + box.right) / 2, (box.top + box.bottom) / 2);
    const own = top && (control.contains(top) || [...(control.labels || [])].some((label) => label.contains(top)));
    if (!own) fault('covered', control, `under ${top ? describe(top) : 'nothing, outside the window'}`);
  }
  scrollTo({ top: was, behavior: 'instant' });

  // 7. Text size as drawn; a picture that is scaled scales its words.
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  let texts = 0;
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const holder = node.parentElement;
    if (node.textContent.trim() === '' || holder.closest('script, style, noscript, template, option, title, desc')) continue;
    if (!drawn(holder)) continue;
    let size = parseFloat(getComputedStyle(holder).fontSize);
    if (holder.closest('svg') && holder.getScreenCTM) {
      const scale = holder.getScreenCTM();
      if (scale) size *= Math.hypot(scale.a, scale.b);
    }
    texts += 1;
    largest = Math.max(largest, size);
    if (size < demands.least_text - 0.05) fault('text', holder, `${round(size)} px`);
  }
  // What is typed has no text of its own in the page.
  for (const { control } of boxes) {
    if (!control.matches('input, select, textarea') || control.matches('[type=checkbox], [type=radio]')) continue;
    const size = parseFloat(getComputedStyle(control).fontSize);
    if (size < demands.least_text - 0.05) fault('text', control, `${round(size)} px`);
  }
  textCount = Math.max(textCount, texts);
};

look();
const folded = [...document.querySelectorAll('details:not([open])')];
if (folded.length > 0) {
  for (const part of folded) part.open = true;
  look();
  for (const part of folded) part.open = false;
}
return { controls: controlCount, texts: textCount, largest_text: largest, faults };
