// Puts drawings into their places, moves their parts, and lets one look nearer and elsewhere. In the browser because only it
// has the elements, the pointers and the adopted style sheets; what is drawn, and where, is computed in C#.
const views = new Map();

// The rules of colour for all drawings: a style element is not allowed by the page's security policy.
export function rules(css) {
  const sheet = new CSSStyleSheet();
  sheet.replaceSync(css);
  document.adoptedStyleSheets = [...document.adoptedStyleSheets, sheet];
}

// A whole drawing as markup.
export function show(place, svg) {
  const element = document.getElementById(place);
  if (!element) return;
  element.innerHTML = svg;
  if (element.classList.contains('stage')) {
    viewOf(place).use(element);
  }
}

// The parts of a moving view; move() puts them in their places.
export function showParts(place, markup) {
  const element = document.getElementById(place);
  if (!element) return;
  element.innerHTML =
    '<svg xmlns="http://www.w3.org/2000/svg" role="img" class="cw-scene" font-family="inherit"><title></title>' + markup + '</svg>';
  viewOf(place).use(element);
}

// The boxes of the framing buttons: whole, then close.
export function frames(place, numbers) {
  const n = numbers.slice();
  const view = viewOf(place);
  view.whole = { x: n[0], y: n[1], w: n[2], h: n[3] };
  view.close = { x: n[4], y: n[5], w: n[6], h: n[7] };
  const width = document.getElementById(place)?.clientWidth || innerWidth;
  view.framed ??= width < 500 || n[8] ? 'close' : 'whole';
  if (!view.isFree) view.fit(view[view.framed]);
}

// How many millimetres of the drawing a pixel is.
export function unit(place) {
  return viewOf(place).u;
}

// Tells when somebody has looked nearer or farther and is done with it.
export function watch(place, zoomed) {
  viewOf(place).zoomed = zoomed;
}

const hundredths = x => Math.round(x * 100) / 100;

// Times are kept only where somebody who measures has put a list for them.
export function move(place, numbers, parts, lines, chain, before, dimensions, title, model, places) {
  const view = viewOf(place);
  const at = view.parts;
  if (!at) return;
  const began = view.element.frameTimes ? performance.now() : 0;
  const n = numbers.slice();
  for (const [element, i] of at.placed) {
    element.setAttribute('transform', `translate(${hundredths(n[3 * i])} ${hundredths(n[3 * i + 1])})rotate(${hundredths(n[3 * i + 2])})`);
  }
  const line = 3 * parts;
  for (const [element, i] of at.lines) {
    const o = line + 4 * i;
    element.setAttribute('d', `M${hundredths(n[o])} ${hundredths(n[o + 1])}L${hundredths(n[o + 2])} ${hundredths(n[o + 3])}`);
  }
  chainOf(at, n, line + 4 * lines, chain);
  view.svg.classList.toggle('has-before', before);
  at.dimensions.innerHTML = dimensions;
  if (at.title.textContent !== title) {
    at.title.textContent = title;
  }
  if (began) {
    view.element.frameTimes.push({ model, places, elements: performance.now() - began });
  }
}

// The chain: its inner plates, its outer plates and its pins, each as one path of thick strokes.
function chainOf(at, n, from, chain) {
  let inner = '', outer = '', pins = '', line = '';
  if (chain === 1) {
    const count = (n.length - from) / 2;
    const points = [];
    for (let i = 0; i < count; i++) {
      points.push(`${hundredths(n[from + 2 * i])} ${hundredths(n[from + 2 * i + 1])}`);
    }
    for (let i = 0; i < count; i++) {
      const link = `M${points[i]}L${points[(i + 1) % count]}`;
      if (i % 2 === 0) outer += link; else inner += link;
      pins += `M${points[i]}h0`;
    }
  } else if (chain === 2) {
    for (let i = from; i < n.length; i += 2) {
      line += `${i === from ? 'M' : 'L'}${hundredths(n[i])} ${hundredths(n[i + 1])}`;
    }
    line += 'Z';
  }
  const d = { inner, outer, pins, line };
  for (const [element, kind] of at.chain) {
    element.setAttribute('d', d[kind]);
  }
}

function viewOf(place) {
  let view = views.get(place);
  if (!view) {
    views.set(place, view = new View());
  }
  return view;
}

// Where one looks: a middle and how many millimetres a pixel is.
class View {
  u = 1;
  x = 0;
  y = 0;
  box = null;
  pointers = new Map();

  use(element) {
    this.svg = element.querySelector('svg');
    const all = name => [...element.querySelectorAll(`[data-${name}]`)].map(part => [part, part.dataset[name]]);
    const dimensions = element.querySelector('[data-dimensions]');
    this.parts = dimensions && {
      placed: all('part').map(([part, i]) => [part, +i]),
      lines: all('line').map(([part, i]) => [part, +i]),
      chain: all('chain'),
      dimensions,
      title: element.querySelector('title'),
    };
    if (element !== this.element) {
      this.element = element;
      this.listen(element);
    }
    this.apply();
  }

  fit(box) {
    this.box = box;
    const { clientWidth: w, clientHeight: h } = this.element ?? {};
    this.u = w && h ? Math.max(box.w / w, box.h / h) : box.w / 340;
    this.x = box.x + box.w / 2;
    this.y = box.y + box.h / 2;
    this.apply();
  }

  apply() {
    const { clientWidth: w, clientHeight: h } = this.element ?? {};
    if (!this.svg || !w || !h || !this.box) return;
    this.svg.setAttribute('viewBox', `${this.x - w * this.u / 2} ${this.y - h * this.u / 2} ${w * this.u} ${h * this.u}`);
    this.element.style.setProperty('--cw-u', this.u);
    if (this.told !== this.u) {
      clearTimeout(this.timer);
      this.timer = setTimeout(() => {
        this.told = this.u;
        this.zoomed?.();
      }, 80);
    }
  }

  zoom(factor, px, py) {
    const { clientWidth: w, clientHeight: h } = this.element;
    const whole = Math.max(this.whole.w / w, this.whole.h / h);
    const u = Math.min(1.5 * whole, Math.max(whole / 16, this.u / factor));
    // What is under the finger stays under it.
    this.x += (px - w / 2) * (this.u - u);
    this.y += (py - h / 2) * (this.u - u);
    this.u = u;
    this.isFree = true;
    this.apply();
  }

  pan(px, py) {
    const limit = (value, low, size) => Math.min(low + size, Math.max(low, value));
    this.x = limit(this.x - px * this.u, this.whole.x, this.whole.w);
    this.y = limit(this.y - py * this.u, this.whole.y, this.whole.h);
    this.isFree = true;
    this.apply();
  }

  look(where) {
    const { clientWidth: w, clientHeight: h } = this.element;
    switch (where) {
      case 'whole':
      case 'close':
        this.isFree = false;
        this.framed = where;
        this.fit(this[where]);
        break;
      case 'in': this.zoom(1.3, w / 2, h / 2); break;
      case 'out': this.zoom(1 / 1.3, w / 2, h / 2); break;
      case 'left': this.pan(w / 6, 0); break;
      case 'right': this.pan(-w / 6, 0); break;
      case 'up': this.pan(0, h / 6); break;
      case 'down': this.pan(0, -h / 6); break;
    }
  }

  listen(element) {
    const keys = {
      ArrowLeft: 'left', ArrowRight: 'right', ArrowUp: 'up', ArrowDown: 'down', '+': 'in', '=': 'in', '-': 'out', '0': 'whole', '1': 'close',
    };
    element.addEventListener('keydown', e => {
      if (e.ctrlKey || e.altKey || e.metaKey) return;
      if (e.shiftKey && e.key.startsWith('Arrow')) {
        e.preventDefault();
        return;
      }
      if (keys[e.key]) {
        e.preventDefault();
        this.look(keys[e.key]);
      }
    });
    element.addEventListener('wheel', e => {
      e.preventDefault();
      const at = element.getBoundingClientRect();
      this.zoom(Math.exp(-e.deltaY * 0.0015), e.clientX - at.left, e.clientY - at.top);
    }, { passive: false });
    element.addEventListener('pointerdown', e => {
      this.pointers.set(e.pointerId, { x: e.clientX, y: e.clientY });
      element.setPointerCapture(e.pointerId);
    });
    element.addEventListener('pointermove', e => this.drag(e));
    for (const end of ['pointerup', 'pointercancel']) {
      element.addEventListener(end, e => this.pointers.delete(e.pointerId));
    }
    element.parentElement.querySelector(`[data-stage="${element.id}"]`)?.addEventListener('click', e => {
      const where = e.target.closest('[data-look]')?.dataset.look;
      if (where) this.look(where);
    });
    new ResizeObserver(() => {
      if (this.box && !this.isFree) this.fit(this.box); else this.apply();
    }).observe(element);
  }

  drag(e) {
    const old = this.pointers.get(e.pointerId);
    if (!old) return;
    const now = { x: e.clientX, y: e.clientY };
    const other = [...this.pointers].find(([id]) => id !== e.pointerId)?.[1];
    if (other) {
      const at = this.element.getBoundingClientRect();
      const apart = p => Math.max(1, Math.hypot(p.x - other.x, p.y - other.y));
      this.pan((now.x - old.x) / 2, (now.y - old.y) / 2);
      this.zoom(apart(now) / apart(old), (now.x + other.x) / 2 - at.left, (now.y + other.y) / 2 - at.top);
    } else {
      this.pan(now.x - old.x, now.y - old.y);
    }
    this.pointers.set(e.pointerId, now);
  }
}
