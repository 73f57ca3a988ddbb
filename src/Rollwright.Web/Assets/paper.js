// Prints the break that is shown, once its pages have come: a browser does not wait for them by itself.
export async function print(id) {
  const patience = Date.now() + 5000;
  const paper = () => document.querySelector(".on-paper");
  while (paper()?.dataset.of !== id && Date.now() < patience) await new Promise((go) => setTimeout(go, 50));
  await Promise.all([...(paper()?.querySelectorAll("img") ?? [])].map((page) => page.decode()));
  // The browser's box stands over the page and its scripts: not while the workbench waits for this one.
  setTimeout(() => window.print());
}
