#include "backends/site/frame.hpp"

namespace stave::site {

// Black rules and black tabs, as on the cards. Every text has at least 7 : 1 against what is
// behind it, in the dark too (WCAG 2.2, 1.4.6), and every link is underlined.
std::string_view style_sheet() {
    return R"(:root {
  --paper: #fff; --ink: #111; --soft: #4a4a4a; --line: #b5b5b5; --link: #0b4a63;
}
@media (prefers-color-scheme: dark) {
  :root { --paper: #131517; --ink: #eee; --soft: #b8bcc0; --line: #50565c; --link: #8fd0ea; }
}
* { box-sizing: border-box; }
html { -webkit-text-size-adjust: 100%; text-size-adjust: 100%; }
body {
  margin: 0 auto; padding: 1.25rem 1rem 2.5rem; max-width: 44rem;
  background: var(--paper); color: var(--ink);
  font: 1.0625rem/1.5 system-ui, sans-serif; overflow-wrap: anywhere;
}
h1, h2, h3, p, dl, dd, ol, ul { margin: 0; padding: 0; }
h1 { font-size: 2.125rem; line-height: 1.15; letter-spacing: -.01em; }
h2 { font-size: 1.375rem; line-height: 1.25; margin-bottom: .75rem; }
h3 { font-size: 1.125rem; line-height: 1.3; }
header p { margin-top: .5rem; max-width: 36rem; }
header .private { border-left: .375rem solid var(--ink); padding-left: .75rem; }
section, footer { border-top: 2px solid var(--ink); margin-top: 1.75rem; padding-top: .75rem; }
section > p, footer > p, li p { margin-top: .375rem; }
a { color: var(--link); text-underline-offset: .15em; }
a:focus-visible, summary:focus-visible { outline: 3px solid var(--link); outline-offset: 2px; }
nav { margin-bottom: 1rem; }
nav a, .links a { display: inline-block; padding: .25rem 0; min-height: 2rem; }
.button {
  display: inline-block; padding: .5rem 1.25rem; min-height: 2.75rem;
  background: var(--ink); color: var(--paper); font-weight: 700; text-decoration: none;
}
.button:hover, .button:focus-visible { text-decoration: underline; }
.address, .zone, .facts, dd { color: var(--soft); }
.address { font-size: .9375rem; }
time { font-variant-numeric: tabular-nums; }
ol, ul { list-style: none; }
.sessions li {
  display: grid; grid-template-columns: 2.75rem 1fr; gap: .875rem; padding: .875rem 0;
  border-top: 1px solid var(--line);
}
.sessions li:first-child { border-top: 0; padding-top: .25rem; }
.tab {
  display: flex; align-items: center; justify-content: center; height: 2.75rem;
  background: var(--ink); color: var(--paper); font-size: 1.5rem; font-weight: 700; line-height: 1;
}
.tab:empty { background: none; border: 2px solid var(--line); }
.links a { margin-right: 1.25rem; }
.feeds li + li { border-top: 1px solid var(--line); margin-top: 1rem; padding-top: 1rem; }
details { margin-top: .75rem; }
summary { padding: .25rem 0; font-weight: 700; cursor: pointer; }
dl { margin-top: .75rem; }
dt { font-weight: 700; }
dd { margin-bottom: .625rem; }
footer { font-size: .9375rem; }
.unseen {
  position: absolute; width: 1px; height: 1px; overflow: hidden; clip-path: inset(50%);
  white-space: nowrap;
}
@media print {
  :root { --paper: #fff; --ink: #000; --soft: #333; --line: #999; --link: #000; }
  body { max-width: none; padding: 0; font-size: 10pt; }
  nav, .button, .links, #how { display: none; }
  li, section > h2 { break-inside: avoid; break-after: auto; }
  h2 { break-after: avoid; }
  .tab { background: none; color: #000; border: 2px solid #000; }
}
)";
}

}  // namespace stave::site
