/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the report does beyond standing there: marks speak when pointed at or
   walked with the arrow keys, and charts zoom along their level axis. */
(function () {
'use strict';
var LEAST = 1 / 24; /* of the frame: no closer */

function all(root, what) { return Array.prototype.slice.call(root.querySelectorAll(what)); }

function button(words, does) {
  var b = document.createElement('button');
  b.type = 'button';
  b.textContent = words;
  b.addEventListener('click', does);
  return b;
}

/* The part of the frame that is shown, as shares 0 .. 1 of its width. */
function zoom(svg) {
  var marks = svg.querySelector('.marks');
  var whole = marks.getAttribute('viewBox').split(' ').map(Number);
  var labels = all(svg, '.along').map(function (e) { return { e: e, x: Number(e.getAttribute('x')) }; });
  var from = 0, wide = 1;
  function draw() {
    var left = whole[0], full = whole[2];
    marks.setAttribute('viewBox', [left + from * full, whole[1], wide * full, whole[3]].join(' '));
    labels.forEach(function (l) {
      var x = left + ((l.x - left) / full - from) / wide * full;
      l.e.setAttribute('x', x.toFixed(1));
      l.e.style.visibility = Math.abs(x - left - full / 2) > full / 2 + 1 ? 'hidden' : '';
    });
  }
  function set(start, size) {
    wide = Math.min(1, Math.max(LEAST, size));
    from = Math.min(1 - wide, Math.max(0, start));
    draw();
  }
  return {
    by: function (factor) { set(from + wide * (1 - factor) / 2, wide * factor); },
    move: function (share) { set(from + share * wide, wide); },
    show: function (start, size) { set(start, size); },
    whole: function () { set(0, 1); },
    isWhole: function () { return wide === 1; },
    /* the share of the frame under a place of the screen */
    at: function (clientX) {
      var box = marks.getBoundingClientRect(), svgBox = svg.getBoundingClientRect();
      var scale = svgBox.width / svg.viewBox.baseVal.width;
      var x = (clientX - svgBox.left) / scale;
      return from + wide * Math.min(1, Math.max(0, (x - whole[0]) / whole[2]));
    },
    /* bring a mark into sight */
    reveal: function (mark) {
      var b = mark.getBBox(), x = (b.x + b.width / 2 - whole[0]) / whole[2];
      if (Math.abs(x - from - wide / 2) > wide / 2) set(x - wide / 2, wide);
    }
  };
}

function zooming(figure, svg) {
  var z = zoom(svg), tools = document.createElement('div'), down = null;
  var buttons = [
    button('Zoom in', function () { z.by(0.5); update(); }),
    button('Zoom out', function () { z.by(2); update(); }),
    button('Earlier', function () { z.move(-0.5); }),
    button('Later', function () { z.move(0.5); }),
    button('All', function () { z.whole(); update(); })];
  if (!figure.querySelector('.day')) { buttons[2].textContent = 'Left'; buttons[3].textContent = 'Right'; }
  function update() {
    buttons.forEach(function (b, i) { b.disabled = i > 0 ? z.isWhole() : false; });
  }
  tools.className = 'tools';
  buttons.forEach(function (b) { tools.appendChild(b); });
  figure.insertBefore(tools, svg);
  svg.addEventListener('pointerdown', function (e) { if (e.button === 0) down = z.at(e.clientX); });
  svg.addEventListener('pointerup', function (e) {
    var up = z.at(e.clientX), start = down;
    down = null;
    if (start === null || 0.02 > Math.abs(up - start)) return;
    z.show(Math.min(start, up), Math.abs(up - start));
    update();
  });
  update();
  return z;
}

all(document, 'figure').forEach(function (figure) {
  var svg = figure.querySelector('svg[role]'), out = figure.querySelector('output');
  var z = null, marks = all(figure, '[data-v]'), at = -1;
  if (!svg || !out || figure.dataset.alive) return;
  figure.dataset.alive = 'yes';
  if (figure.classList.contains('zooms')) z = zooming(figure, svg);
  if (marks.length === 0) return;
  function show(i) {
    if (at >= 0) marks[at].classList.remove('on');
    at = i;
    marks[i].classList.add('on');
    out.className = '';
    out.textContent = marks[i].getAttribute('data-v');
  }
  marks.forEach(function (mark, i) {
    mark.addEventListener('pointerenter', function () { show(i); });
    all(mark, 'title').forEach(function (t) { mark.removeChild(t); });
  });
  svg.setAttribute('tabindex', '0');
  svg.addEventListener('keydown', function (e) {
    var step = { ArrowRight: 1, ArrowLeft: -1, PageDown: 30, PageUp: -30 }[e.key];
    if (!step) return;
    e.preventDefault();
    show((Math.max(at, step > 0 ? -1 : 0) + step + 30 * marks.length) % marks.length);
    if (z) z.reveal(marks[at]);
  });
  out.className = 'hint';
  out.textContent = 'Point at a mark, or walk with the arrow keys' + (z ? '; drag across to zoom.' : '.');
});

/* Paper shows what the screen folds away. */
window.addEventListener('beforeprint', function () {
  all(document, 'details').forEach(function (d) { d.open = true; });
});
}());
