// Sends the code; the cookie comes back, and the page that was wanted opens.
const form = document.querySelector("form");
const said = document.getElementById("said");

form.addEventListener("submit", async (event) => {
  event.preventDefault();
  said.textContent = "";
  try {
    const answer = await fetch("/api/pair", {
      method: "POST", headers: { "Content-Type": "application/json" },
      body: JSON.stringify({ code: form.elements.code.value }),
    });
    if (answer.ok) return location.reload();
    said.textContent = (await answer.json()).refusal;
  } catch {
    said.textContent = "Threepost does not answer. Look whether it still runs.";
  }
  form.elements.code.select();
});
