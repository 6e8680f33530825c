// hello.js: the start-up page: how long is the way to the laptop and back?
import { choose_language, word } from '/words.js';
import { ensure_language } from '/words.js';

const el = id => document.getElementById(id);
await ensure_language(choose_language());
document.documentElement.lang = choose_language();
el('title').textContent = word('hello_title');
el('words').textContent = word('hello_words');
el('next').textContent = word('hello_next');
el('plain').textContent = location.protocol === 'https:' ? '' : word('plain_http');

const took = [];
for (let i = 0; i < 5; i++) {
  const begin = performance.now();
  await fetch('/hello.js', { cache: 'reload' });
  took.push(performance.now() - begin);
}
took.sort((a, b) => a - b);
el('times').textContent = word('hello_times', Math.round(took[2]));
