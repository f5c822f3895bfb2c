// A photo is made smaller on the phone before it is sent: what is kept is no larger anyhow.
const LONGEST = 1600;
const form = document.querySelector(".photo-form");

async function smaller(file) {
  const picture = await createImageBitmap(file);
  const scale = LONGEST / Math.max(picture.width, picture.height);
  if (scale >= 1) return file;
  const canvas = document.createElement("canvas");
  canvas.width = Math.round(picture.width * scale);
  canvas.height = Math.round(picture.height * scale);
  canvas.getContext("2d").drawImage(picture, 0, 0, canvas.width, canvas.height);
  const made = await new Promise((done) => canvas.toBlob(done, "image/jpeg", 0.85));
  return new File([made], "photo.jpg", { type: "image/jpeg" });
}

if (form) {
  for (const input of form.querySelectorAll("input[type=file]")) {
    input.addEventListener("change", async () => {
      for (const other of form.querySelectorAll("input[type=file]")) if (other !== input) other.value = "";
      if (!input.files.length) return;
      try {
        const put = new DataTransfer();
        put.items.add(await smaller(input.files[0]));
        input.files = put.files;
      } catch {
        // not a picture that this browser reads: it is sent as it is, and the answer says what was wrong
      }
    });
  }
  form.addEventListener("submit", () => {
    const button = form.querySelector("button");
    button.textContent = form.dataset.working;
    setTimeout(() => (button.disabled = true));
  });
}
