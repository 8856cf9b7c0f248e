// Light or dark: the reader's system decides until the button does.
(() => {
  const button = document.getElementById('theme-button');
  const root = document.documentElement;
  const system = window.matchMedia('(prefers-color-scheme: dark)');
  const isDark = () => (root.dataset.theme ?? (system.matches ? 'dark' : 'light')) === 'dark';
  const name = () => {
    button.textContent = isDark() ? 'Light mode' : 'Dark mode';
  };
  button.addEventListener('click', () => {
    root.dataset.theme = isDark() ? 'light' : 'dark';
    name();
  });
  system.addEventListener('change', name);
  name();
  button.hidden = false;
})();
