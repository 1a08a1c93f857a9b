// Search: sections that hold all the words stay, the others are hidden.
const sections = [];
for (const article of document.querySelectorAll("article")) {
  let current = null;
  for (const child of [...article.children]) {
    if (/^H[2-4]$/.test(child.tagName) || current === null) {
      current = { parts: [], text: "" };
      sections.push(current);
    }
    current.parts.push(child);
    current.text += " " + child.textContent.toLowerCase();
  }
}
const found = document.getElementById("found");
document.getElementById("search").addEventListener("input", (event) => {
  const words = event.target.value.toLowerCase().split(/\s+/).filter(Boolean);
  let count = 0;
  for (const section of sections) {
    const fits = words.every((word) => section.text.includes(word));
    count += fits;
    for (const part of section.parts) part.hidden = !fits;
  }
  found.textContent = words.length ? `${count} of ${sections.length} sections` : "";
});
