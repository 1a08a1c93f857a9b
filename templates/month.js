// Sorting and filtering in the page itself; without it, every row is simply there.
"use strict";

const numeric = new Set(["count", "figure"]);
const collator = new Intl.Collator("en", { numeric: true, sensitivity: "base" });

function compare(column, style, down) {
  return (a, b) => {
    const x = a.cells[column].dataset.sort;
    const y = b.cells[column].dataset.sort;
    // What a book does not say stands last, whichever way the rest is sorted.
    if (x === "" || y === "") return (x === "") - (y === "");
    const order = numeric.has(style) ? Number(x) - Number(y) : collator.compare(x, y);
    return down ? -order : order;
  };
}

function sortBy(table, head) {
  const down = head.getAttribute("aria-sort") === "ascending";
  for (const other of table.tHead.rows[0].cells) other.removeAttribute("aria-sort");
  head.setAttribute("aria-sort", down ? "descending" : "ascending");
  const rows = [...table.tBodies[0].rows];
  rows.sort(compare(head.cellIndex, head.dataset.style, down));
  table.tBodies[0].append(...rows);
}

function filterRows(words) {
  const wanted = words.toLowerCase().split(/\s+/).filter(Boolean);
  let shown = 0;
  for (const table of document.querySelectorAll("table.sortable")) {
    let hidden = 0;
    for (const row of table.tBodies[0].rows) {
      const text = row.textContent.toLowerCase();
      row.hidden = !wanted.every((word) => text.includes(word));
      if (row.hidden) hidden += 1;
      else shown += 1;
    }
    const note = table.closest("section").querySelector(".hidden-rows");
    note.hidden = hidden === 0;
    note.textContent = hidden === 1 ? "1 row not shown." : `${hidden} rows not shown.`;
  }
  document.getElementById("count").textContent = wanted.length ? `${shown} rows shown` : "";
}

for (const table of document.querySelectorAll("table.sortable")) {
  for (const head of table.tHead.rows[0].cells) {
    const button = document.createElement("button");
    button.type = "button";
    button.textContent = head.textContent;
    button.addEventListener("click", () => sortBy(table, head));
    head.replaceChildren(button);
  }
}
const field = document.getElementById("words");
field.closest(".filter").hidden = false;
field.addEventListener("input", () => filterRows(field.value));
