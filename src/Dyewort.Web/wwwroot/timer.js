// Counts down what the page already says, and speaks up when a timer is up. Without this file the page still tells the time.
const timers = [...document.querySelectorAll("time[data-due]")];
const called = new Set();
function tick() {
  for (const one of timers) {
    const left = (new Date(one.dataset.due) - Date.now()) / 1000;
    const minutes = Math.floor(Math.abs(left) / 60), seconds = String(Math.floor(Math.abs(left) % 60)).padStart(2, "0");
    one.textContent = left > 0 ? `${minutes}:${seconds} left` : `up since ${minutes} min`;
    if (left <= 0 && left > -600 && !called.has(one)) {
      called.add(one);
      document.title = "● " + document.title;
      navigator.vibrate?.([300, 100, 300]);
    }
  }
}
if (timers.length > 0) { tick(); setInterval(tick, 1000); }
