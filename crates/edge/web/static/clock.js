// Working times: counted down in sight, and heard when five minutes, one minute and nothing are left.
// A browser lets a page sound only after a tap or a key; the one that began the step is such. A page that
// is loaded while a clock runs asks at once: most browsers remember the tap that led to it.
let sound;
function wake() {
  try {
    sound ??= new AudioContext();
    sound.resume();
  } catch {
    // A page that cannot sound still counts.
  }
}
for (const touch of ["click", "pointerup", "keydown"]) document.addEventListener(touch, wake);

function beep(times) {
  if (sound?.state !== "running") return;
  for (let i = 0; i < times; i++) {
    const tone = sound.createOscillator();
    const gain = sound.createGain();
    const at = sound.currentTime + i * 0.4;
    tone.frequency.value = 880;
    gain.gain.value = 0.2;
    tone.connect(gain).connect(sound.destination);
    tone.start(at);
    tone.stop(at + 0.2);
  }
}

const LIMITS = [[0, 5], [60, 2], [300, 1]];
const heard = new Map();

export function count() {
  for (const time of document.querySelectorAll("time[data-left]")) {
    const left = Math.ceil((Date.parse(time.dateTime) - Date.now()) / 1000);
    const size = Math.abs(left);
    const two = (n) => String(n).padStart(2, "0");
    const clock = `${size >= 3600 ? `${Math.floor(size / 3600)}:` : ""}${two(Math.floor(size / 60) % 60)}:${two(size % 60)}`;
    time.textContent = left >= 0 ? `${clock} left` : `run out ${clock} ago`;
    time.closest(".clock").classList.toggle("over", left < 0);
    const limit = LIMITS.find(([seconds]) => left <= seconds);
    const before = heard.get(time.dateTime);
    const now = limit ? limit[0] : Infinity;
    if (before !== undefined && now < before) beep(limit[1]);
    heard.set(time.dateTime, now);
  }
}

setInterval(count, 500);
if (document.querySelector(".clock")) wake();
