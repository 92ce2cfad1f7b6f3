// A classic script, so that a web view too old for modules still says in plain words why nothing appears.
// These words cannot come from the catalogue: it is loaded by what this script guards.
(function () {
  if ('popover' in HTMLElement.prototype && window.CSS && CSS.supports('height', '100dvh')) return;
  document.addEventListener('DOMContentLoaded', function () {
    document.body.textContent = 'This web view is too old for Provenohm. Update Android System WebView, iOS or WebKitGTK.';
  });
})();
