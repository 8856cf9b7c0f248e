// The height slider shows what was flown at another height; everything is already on the page.
(() => {
  const slider = document.getElementById('height-slider');
  if (!slider) return;
  const options = [...document.querySelectorAll('#height-list option')];
  const output = document.getElementById('height-output');
  const symbol = document.getElementById('height-symbol');
  const show = () => {
    const { label, dataset } = options[Number(slider.value)];
    for (const panel of document.querySelectorAll('.panel')) panel.hidden = panel.dataset.height !== dataset.height;
    symbol.setAttribute('href', `#${dataset.symbol}`);
    output.textContent = `${label}: ${dataset.line}`;
    slider.setAttribute('aria-valuetext', label);
  };
  slider.addEventListener('input', show);
  document.getElementById('height-back').addEventListener('click', () => {
    slider.value = slider.defaultValue;
    show();
  });
  document.getElementById('height-bar').hidden = false;
  slider.value = slider.defaultValue;
  show();
})();
