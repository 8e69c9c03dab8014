// Starts the program. It comes in many pieces, and a poor network may lose one: it is fetched once more before anybody is asked.
const again = "cogwright-fetched-again";

// Of a start that fails nothing comes but this: what start() returns stays open for ever.
const failed = new Promise((_, reject) =>
  addEventListener("unhandledrejection", ({ reason }) => {
    if (/^Failed to start platform/.test(reason?.message)) reject(reason);
  }),
);

try {
  await Promise.race([Blazor.start(), failed]);
  sessionStorage.removeItem(again);
} catch (e) {
  console.warn(e);
  if (sessionStorage.getItem(again) === null) {
    sessionStorage.setItem(again, "yes");
    location.reload();
  } else {
    sessionStorage.removeItem(again);
    const told = document.getElementById("blazor-error-ui");
    told.style.display = "block";
    told.querySelector("a.reload").addEventListener("click", (click) => {
      click.preventDefault();
      location.reload();
    });
  }
}
