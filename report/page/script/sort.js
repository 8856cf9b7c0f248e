// Sorts a table by the column that is chosen over it; the first choice is the order in which it came.
for (const table of document.querySelectorAll('table[data-sortable]')) {
  const heads = [...table.tHead.rows[0].cells];
  const body = table.tBodies[0];
  const given = [...body.rows];
  const textOf = (row, column) => row.cells[column].textContent.trim();
  const label = document.createElement('label');
  const select = document.createElement('select');
  label.className = 'sorting';
  label.append('Sort by ', select);
  for (const name of ['order of the mission', ...heads.map((head) => head.textContent.toLowerCase())]) {
    select.append(new Option(name));
  }
  select.addEventListener('change', () => {
    const column = select.selectedIndex - 1;
    const rows = [...given];
    for (const head of heads) head.removeAttribute('aria-sort');
    if (column >= 0) {
      rows.sort((a, b) => textOf(a, column).localeCompare(textOf(b, column), 'en', { numeric: true }));
      heads[column].setAttribute('aria-sort', 'ascending');
    }
    body.append(...rows);
  });
  table.parentElement.before(label);
}
