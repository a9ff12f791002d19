// Prints the page for the bench as soon as it is there.
for (let tries = 0; tries < 40; tries += 1) {
    const page = document.querySelector("iframe.page")?.contentWindow;
    if (page?.document.readyState === "complete" && page.document.body?.childElementCount > 0) {
        page.focus();
        page.print();
        break;
    }
    await new Promise((resolve) => setTimeout(resolve, 100));
}
