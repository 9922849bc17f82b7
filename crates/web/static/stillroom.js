// Stillroom: small comforts. Every page works without this file.
(function () {
  'use strict';
  var all = function (what, run) { Array.prototype.forEach.call(document.querySelectorAll(what), run); };

  // A form is sent once; the server recognises a second sending too.
  all('form[method="post"]', function (form) {
    form.addEventListener('submit', function (event) {
      if (form.dataset.sent) { event.preventDefault(); return; }
      form.dataset.sent = 'yes';
      all('form button', function (b) { if (b.form === form) b.setAttribute('aria-disabled', 'true'); });
    });
  });
  window.addEventListener('pageshow', function () {
    all('form[data-sent]', function (form) { delete form.dataset.sent; });
    all('button[aria-disabled]', function (b) { if (!b.hasAttribute('data-waits')) b.removeAttribute('aria-disabled'); });
  });

  // A list that is the whole question answers at once when it changes.
  all('select[data-go]', function (list) {
    list.addEventListener('change', function () { list.form.requestSubmit(); });
  });

  // Plus and minus around a count.
  all('.tally', function (tally) {
    var count = tally.querySelector('input');
    Array.prototype.forEach.call(tally.querySelectorAll('[data-by]'), function (b) { b.hidden = false; });
    tally.addEventListener('click', function (event) {
      var by = Number(event.target.getAttribute('data-by'));
      if (!by) return;
      event.preventDefault();
      var next = Number(count.value || 0) + by;
      if (next >= Number(count.min || 0) && next <= Number(count.max || 9999)) count.value = String(next);
    });
  });

  all('[data-print]', function (b) {
    b.hidden = false;
    b.addEventListener('click', function () { window.print(); });
  });

  // The now-line moves on from the minute the page was made at: the house's clock, not this device's.
  var opened = Date.now();
  function tick() {
    all('.nowl[data-now]', function (line) {
      var from = Number(line.dataset.from), to = Number(line.dataset.to);
      var at = (Number(line.dataset.now) + (Date.now() - opened) / 60000 - from) / (to - from) * 100;
      var shown = at >= 0 && at <= 100;
      line.setAttribute('visibility', shown ? 'visible' : 'hidden');
      if (shown) { line.setAttribute('x1', at + '%'); line.setAttribute('x2', at + '%'); }
    });
  }
  if (document.querySelector('.nowl[data-now]')) setInterval(tick, 5000);

  // The large words of the kitchen day are for one step: at its end the page asks anew.
  all('[data-anew]', function (part) {
    setTimeout(function () { location.reload(); }, Math.max(1, Number(part.dataset.anew)) * 60000);
  });
}());
