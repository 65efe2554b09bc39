// Starts the program. A file of its own, since the page allows no script within itself.
try {
  const { default: start } = await import("./{JS}");
  await start({ module_or_path: new URL("./{WASM}", import.meta.url) });
} catch (error) {
  const status = document.getElementById("shell-status");
  if (status) {
    status.textContent = "Bathbook did not open. Check the connection and reload the page; if it stays so, "
      + "this browser may be too old: update it or use another. Plans kept on this device are untouched.";
  }
  throw error;
}
