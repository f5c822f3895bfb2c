// Settings of this phone; they change how the page looks and speaks, never what is kept.
export function openSettings() {
  const box = document.querySelector(".settings");
  const read = (name) => {
    try {
      return localStorage.getItem(name) || "";
    } catch {
      return "";
    }
  };
  box.hidden = false;
  for (const input of box.querySelectorAll("input")) {
    if (input.type === "checkbox") input.checked = Boolean(read(input.name));
    else input.value = read(input.name);
    input.addEventListener("change", () => {
      const value = input.type === "checkbox" ? (input.checked ? "yes" : "") : input.value.trim();
      try {
        if (value) localStorage.setItem(input.name, value);
        else localStorage.removeItem(input.name);
      } catch {
        return;
      }
      look();
    });
  }
  function look() {
    document.body.classList.toggle("left-thumb", Boolean(read("left-thumb")));
    document.documentElement.dataset.light = read("dim") ? "dim" : "day";
  }
  look();
  return read;
}
