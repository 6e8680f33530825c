// dom.js: elements from calls. Text only ever goes in as text, so there is nothing to escape.

export function h(tag, attributes, ...children) {
  const el = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes ?? {})) {
    if (value === undefined || value === null || value === false) continue;
    if (name.startsWith('on')) el.addEventListener(name.slice(2), value);
    else if (name === 'value') el.value = value;
    else el.setAttribute(name, value === true ? '' : value);
  }
  put(el, children);
  return el;
}

export function put(el, ...children) {
  for (const c of children.flat(Infinity)) {
    if (c === undefined || c === null || c === false || c === '') continue;
    el.append(c instanceof Node ? c : String(c));
  }
  return el;
}

// A picture as the server describes it: shapes in points; `mm` is how many CSS pixels a millimetre of this screen has.
export function draw(picture, mm, title) {
  const NS = 'http://www.w3.org/2000/svg';
  const at = (tag, attributes, words) => {
    const el = document.createElementNS(NS, tag);
    for (const [name, value] of Object.entries(attributes)) el.setAttribute(name, value);
    if (words) el.textContent = words;
    return el;
  };
  const px = points => points * 25.4 / 72 * mm;
  const svg = at('svg', { viewBox: `-1 -1 ${picture.width + 2} ${picture.height + 2}`, width: px(picture.width + 2),
    height: px(picture.height + 2), role: 'img', 'aria-label': title, class: 'picture' });
  for (const s of picture.shapes) {
    const tone = { class: `stroke-${s.stroke} fill-${s.fill}`, 'stroke-width': s.weight };
    if (s.kind === 'box') svg.append(at('rect', { x: s.x, y: s.y, width: s.width, height: s.height, ...tone }));
    if (s.kind === 'line') svg.append(at('line', { x1: s.x, y1: s.y, x2: s.x + s.width, y2: s.y + s.height, ...tone }));
    if (s.kind === 'path') {
      let d = '';
      for (let i = 0; i < s.points.length; i += 2) d += `${i ? 'L' : 'M'}${s.x + s.points[i]} ${s.y + s.points[i + 1]}`;
      svg.append(at('path', { d: d + (s.closed ? 'Z' : ''), ...tone }));
    }
    if (s.kind === 'text') {
      const size = [6.5, 8.5, 12][s.size];
      const x = s.anchor === 'start' ? s.x : s.anchor === 'end' ? s.x + s.width : s.x + s.width / 2;
      svg.append(at('text', { x, y: s.y + size, 'font-size': size, 'text-anchor': s.anchor, class: `text-${s.stroke}` }, s.words));
    }
  }
  return svg;
}
