// Opens every table for printing and closes again what was closed.
(() => {
  let opened = [];
  window.addEventListener('beforeprint', () => {
    opened = [...document.querySelectorAll('details:not([open])')];
    for (const details of opened) details.open = true;
  });
  window.addEventListener('afterprint', () => {
    for (const details of opened) details.open = false;
  });
})();
