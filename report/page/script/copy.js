// Copies a command; where the browser refuses, the command is selected instead.
for (const button of document.querySelectorAll('.copy')) {
  const code = button.parentElement.querySelector('code');
  const select = () => {
    const range = document.createRange();
    range.selectNodeContents(code);
    getSelection().removeAllRanges();
    getSelection().addRange(range);
  };
  button.addEventListener('click', async () => {
    try {
      await navigator.clipboard.writeText(code.textContent);
      button.textContent = 'Copied';
    } catch {
      select();
      button.textContent = 'Selected';
    }
    setTimeout(() => {
      button.textContent = 'Copy';
    }, 2000);
  });
  button.hidden = false;
}
