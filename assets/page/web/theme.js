// Runs before the first paint: light or dark as the person chose it here
// earlier; without a choice the page follows the system.
(function () {
  try {
    var kept = localStorage.getItem("threepost:theme");
    if (kept === "light" || kept === "dark") document.documentElement.dataset.theme = kept;
  } catch (e) { /* storage is not allowed here; the system decides */ }
})();
