import { createHash } from 'node:crypto'

/** The page's only style sheet. Its address carries a hash of it, so that browsers may keep it for ever. */
export const STYLESHEET = `
:root{--paper:#f7f5ee;--card:#fffefb;--ink:#1d2721;--soft:#525f57;--line:#d9d5c6;--field:#8b9289;--moss:#2c5a43;--moss-ink:#fff;
--brass:#8a5f13;--band:#e9e2cf;--tie:#b09a74;--rail:#26332c;--grid:#ebe7da;--stop:#a3182b;--stop-tint:#fbe9ea;--warn:#8a5200;
--warn-tint:#fcf0da;--note:#1c5480;--note-tint:#e5eff7;--sound:#2c5a43;--sound-tint:#e6f0e9;--bent:#d7b56d;--shadow:0 1px 3px #0002}
@media (prefers-color-scheme:dark){:root{--paper:#171c19;--card:#1f2622;--ink:#e9ece6;--soft:#a9b4ac;--line:#3a443e;--field:#7d8a81;
--moss:#8fc9a8;--moss-ink:#10201a;--brass:#e3b968;--band:#373a30;--tie:#7a6d52;--rail:#eef1ec;--grid:#272f2a;--stop:#ff9a9f;
--stop-tint:#43222a;--warn:#f2bd66;--warn-tint:#3d3020;--note:#92c6f0;--note-tint:#1f3344;--sound:#8fc9a8;--sound-tint:#22352b;--bent:#8d6f2f;--shadow:none}}
*{box-sizing:border-box}
html{scroll-padding-block:2rem 6rem;-webkit-text-size-adjust:100%}
body{margin:0;background:var(--paper);color:var(--ink);font:1rem/1.5 system-ui,-apple-system,"Segoe UI",Roboto,"Helvetica Neue",Arial,sans-serif}
.inside{max-width:78rem;margin:0 auto;padding:0 1.25rem}
h1,h2,h3{line-height:1.2;font-family:ui-serif,Georgia,"Times New Roman",serif;font-weight:600}
h1{font-size:1.9rem;margin:1.6rem 0 .8rem;overflow-wrap:anywhere}
h1+.hint{margin-top:-.5rem}
h2{font-size:1.4rem;margin:0 0 .8rem}
h3{font-size:1.08rem;margin:1.4rem 0 .5rem}
p{margin:.4rem 0 .8rem}
a{color:var(--moss);text-underline-offset:.15em}
:focus-visible{outline:3px solid var(--brass);outline-offset:2px;border-radius:3px}
kbd{font:inherit;font-weight:600;white-space:nowrap}
.hint,.alt{color:var(--soft);font-size:.875rem;font-weight:400;font-family:system-ui,-apple-system,"Segoe UI",Roboto,Arial,sans-serif}
.alt{white-space:nowrap}
.unseen,.skip:not(:focus){position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%);white-space:nowrap}
.skip{position:absolute;left:.5rem;top:.5rem;background:var(--card);padding:.5rem 1rem;z-index:3}
.top{background:var(--card);border-bottom:1px solid var(--line)}
.top .inside{display:flex;flex-wrap:wrap;align-items:center;gap:.3rem 1.5rem;padding-block:.55rem}
.brand{display:flex;align-items:center;gap:.6rem;font:600 1.25rem ui-serif,Georgia,"Times New Roman",serif;color:var(--ink);text-decoration:none}
.top nav{display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;margin-left:auto}
.top nav a{padding:.45rem 0}
.mark-rail{fill:none;stroke:var(--brass);stroke-width:3}
.mark-chord{fill:none;stroke:var(--moss);stroke-width:1.5}
footer.inside{margin-top:2.5rem;padding-block:.6rem;border-top:1px solid var(--line);color:var(--soft);font-size:.875rem}
.card{background:var(--card);border:1px solid var(--line);border-radius:.6rem;padding:1.1rem 1.25rem;margin:0 0 1.1rem;box-shadow:var(--shadow);min-width:0}
section.card>h2{padding-bottom:.5rem;border-bottom:1px solid var(--line)}

button,.button{font:inherit;font-weight:600;display:inline-block;min-height:2.75rem;padding:.5rem 1.15rem;border:1px solid var(--moss);border-radius:.4rem;background:var(--card);color:var(--moss);cursor:pointer;text-decoration:none;line-height:1.6}
button.first,.button.first{background:var(--moss);color:var(--moss-ink)}
button.grave{border-color:var(--stop);color:var(--stop)}
button:hover,.button:hover{filter:brightness(.94)}
button.small{min-height:2.25rem;min-width:2.25rem;padding:.15rem .6rem;font-weight:500}
.buttons{display:flex;flex-wrap:wrap;gap:.7rem;align-items:center}

.welcome{display:grid;grid-template-columns:minmax(0,3fr) minmax(0,2fr);gap:2rem;align-items:start;margin:1.2rem 0 1.8rem}
.welcome h1{font-size:2.2rem;margin-top:.6rem}
.welcome p{font-size:1.08rem;max-width:38rem}
.plans{list-style:none;margin:0;padding:0}
.plans.card{padding:.6rem 1.25rem;margin-bottom:1.1rem}
.plans li{border-top:1px solid var(--line);padding:.55rem 0;overflow-wrap:anywhere}
.plans li:first-child{border-top:0}
.plans a{font-weight:600;display:inline-block;padding:.15rem 0}
.plans .hint{display:block}

fieldset{border:0;margin:0;padding:0;min-width:0}
fieldset.card{padding:1.1rem 1.25rem;border:1px solid var(--line)}
legend{font:600 1.15rem ui-serif,Georgia,"Times New Roman",serif;padding:0 .4rem;margin-left:-.4rem;overflow-wrap:anywhere}
.fields{display:grid;grid-template-columns:repeat(auto-fill,minmax(13.5rem,1fr));gap:.8rem 1.1rem;margin:.3rem 0 .9rem;align-items:start}
.field label{display:block;font-weight:600;font-size:.9375rem;margin-bottom:.2rem}
.field.wide{grid-column:1/-1}
.field .hint{display:block;margin-top:.2rem}
input,select,textarea{font:inherit;color:inherit;background:var(--card);border:1px solid var(--field);border-radius:.35rem;padding:.45rem .55rem;min-height:2.75rem;width:100%;min-width:0}
textarea{min-height:4.5rem}
input[type=checkbox],input[type=radio]{width:1.4rem;height:1.4rem;min-height:0;margin:0;accent-color:var(--moss);flex:none}
[aria-invalid]{border:2px solid var(--stop);background:var(--stop-tint)}
.ticks{display:flex;flex-wrap:wrap;gap:.3rem 1.6rem;margin:.2rem 0 .9rem}
.tick{display:flex;align-items:center;gap:.55rem;min-height:2.5rem;flex-wrap:wrap}
.tick label{font-weight:400;flex:1 1 10rem}
.fault{color:var(--stop);font-size:.9375rem;margin:.25rem 0;padding:0;list-style:none}
.fault em{font-style:normal;color:var(--ink)}
.complaint{border:2px solid var(--stop);background:var(--stop-tint)}
.complaint li{margin:.25rem 0}
.word{overflow-wrap:anywhere}
.inline{display:inline}
.addresses li{margin:.25rem 0}
.priced{display:block;white-space:nowrap;margin:.15rem 0}
.priced input{width:6rem}
.complaint a{color:var(--stop);font-weight:600}
.notice{border:2px solid var(--note);background:var(--note-tint)}
.done{border:2px solid var(--sound);background:var(--sound-tint)}
details>summary{cursor:pointer;font-weight:600;padding:.55rem 0;min-height:2.75rem}
details.card{padding-block:.45rem}
details.card>summary{font:600 1.15rem ui-serif,Georgia,"Times New Roman",serif}
summary .hint{margin-left:.5rem}
.below{margin:.5rem 0 1rem}
.bar-buttons{position:sticky;bottom:0;z-index:2;background:var(--paper);border-top:1px solid var(--line);padding:.7rem .5rem;margin:1rem -.5rem 0}
.bar-buttons .units{margin-left:auto;display:flex;align-items:center;gap:.5rem}
.bar-buttons .units select{width:auto}
.editor>summary{display:inline-block;margin-bottom:1.1rem}
.editor[open]>summary{margin-bottom:1.4rem}
.default-button{position:absolute;width:1px;height:1px;padding:0;min-height:0;border:0;overflow:hidden;clip-path:inset(50%)}

table{border-collapse:collapse;width:100%}
caption{text-align:left;font-weight:600;font-size:.9375rem;padding:.2rem 0 .5rem}
table.edit th{text-align:left;font-size:.875rem;font-weight:600;padding:.15rem .3rem;vertical-align:middle}
table.edit td{padding:.15rem .2rem}
table.edit tbody th{width:2rem;color:var(--soft)}
table.edit td:last-child{white-space:nowrap;width:1%}
table.edit td:last-child button+button{margin-left:.25rem}
table.edit input[type=checkbox]{display:block;margin:.4rem}
table.elements td:nth-child(2){width:8.2rem}
table.elements td:nth-child(4){width:16rem}
table.elements td:nth-child(4){display:flex;gap:.3rem}
table.elements td:nth-child(4) select{flex:0 0 7.2rem}
table.elements td:nth-child(5){width:6rem}
table.pieces td:nth-child(2){width:9rem}
table.pieces td:nth-child(4){display:flex;gap:.3rem;min-width:14rem}
table.pieces td:nth-child(4) select{flex:0 0 7.2rem}
table.elements td:nth-child(6){width:6.4rem}
table.shelved td:nth-child(2),table.shelved td:nth-child(3){width:8.2rem}
table.shelved td:nth-child(n+6):not(:last-child){width:6.4rem}
table.moulded{width:auto}
table.moulded td:not(:last-child){width:14rem}
table.packs tbody th{width:auto;color:inherit}
table.packs td:last-child{width:auto}
tr.notes td{padding:.2rem .3rem .6rem 2.2rem;white-space:normal}

.summary{display:grid;grid-template-columns:repeat(4,minmax(0,1fr));gap:.8rem;list-style:none;margin:1rem 0;padding:0}
.summary a{display:block;height:100%;background:var(--card);border:1px solid var(--line);border-radius:.6rem;padding:.75rem 1rem;text-decoration:none;color:inherit;box-shadow:var(--shadow)}
.summary b{display:block;font:600 1.35rem/1.25 ui-serif,Georgia,"Times New Roman",serif;color:var(--moss)}
.summary span{color:var(--soft);font-size:.9375rem}
.summary b .alt{display:block;font-size:1rem}
.jumps{display:flex;flex-wrap:wrap;gap:.15rem 1.3rem;margin:0 0 1rem;padding:0;list-style:none}
.jumps a{display:inline-block;padding:.35rem 0}
.sheet{display:grid;grid-template-columns:minmax(0,7fr) minmax(0,3fr);gap:1.1rem;align-items:start}
.drawing{overflow-x:auto}
svg.plan{display:block;width:100%;height:auto}
svg.plan text{font:12.5px system-ui,-apple-system,"Segoe UI",Roboto,Arial,sans-serif;fill:var(--ink)}
svg.plan .small,svg.plan .stations text{font-size:10.5px;fill:var(--soft)}
svg.plan .stations text,svg.plan .number,svg.plan .sign text,svg.plan .grade{text-anchor:middle}
.grid{fill:none;stroke:var(--grid);stroke-width:1}
.bed{fill:none;stroke:var(--band);stroke-linejoin:round}
.ready-made{fill:none;stroke:var(--moss);stroke-linejoin:round}
.piece-end{fill:var(--card);stroke:var(--moss);stroke-width:1.7}
.ties{fill:none;stroke:var(--tie)}
.rail{fill:none;stroke:var(--rail);stroke-width:1.15;stroke-linejoin:round}
.rail.one{stroke-width:2.4}
.state-existing,.state-lifted{opacity:.5}
.state-lifted .rail{stroke-dasharray:5 4}
.existing{fill:none;stroke:var(--tie);stroke-dasharray:3 5;opacity:.8}
.joint{fill:none;stroke:var(--brass);stroke-width:2}
.badge{fill:var(--moss)}
svg.plan .number{fill:var(--moss-ink);font-weight:600}
.leader{fill:none;stroke:var(--soft);stroke-width:.8}
.stations path,path.stations{fill:none;stroke:var(--soft);stroke-width:1}
.start{fill:none;stroke:var(--moss);stroke-width:2.2;stroke-linejoin:round;stroke-linecap:round}
.stop-block{fill:none;stroke:var(--ink);stroke-width:3.5}
svg.plan .track-name{font-weight:600}
.scale-frame{fill:var(--card);stroke:var(--ink);stroke-width:1}
.scale-fill{stroke:var(--ink);stroke-width:6}
.found{fill:none;opacity:.55;stroke-linecap:butt}
.found.stop{stroke:var(--stop)}
.found.warn{stroke:var(--warn);stroke-dasharray:9 5}
.found.note{stroke:var(--note);stroke-dasharray:2 5}
.sign path,.sign circle{stroke-width:2;stroke-linejoin:round}
.sign.stop path{fill:var(--stop);stroke:var(--card)}
.sign.warn path{fill:var(--warn-tint);stroke:var(--warn)}
.sign.note circle{fill:var(--note-tint);stroke:var(--note)}
svg.plan .sign text{font-weight:700;font-size:11.5px}
svg.plan .sign.stop text{fill:var(--card)}
.strips{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(20rem,100%),1fr));gap:.8rem 1.4rem;margin:.3rem 0 1rem}
svg.plan.strip{max-width:34rem}
svg.plan.strip .small{font-size:11px}
.unrolled{fill:var(--sound-tint)}
svg.plan .piece-mark{font-weight:600;text-anchor:middle}
svg.plan .middle,svg.plan .over{text-anchor:middle}
svg.plan .over{fill:var(--ink);stroke:var(--card);stroke-width:4;paint-order:stroke;stroke-linejoin:round}
.strip .joint,.strip-key .joint{stroke-width:2.6}
.joint.open{fill:var(--card)}
.joint.full{fill:var(--brass)}
.break{fill:none;stroke:var(--note);stroke-width:1.3;stroke-dasharray:4 3}
.keep-out{stroke:var(--soft);stroke-width:1}
.earth{fill:var(--band)}
.profile{margin-top:.8rem}
.key{display:flex;flex-wrap:wrap;gap:.2rem 1.3rem;margin:.7rem 0 0;color:var(--soft);font-size:.875rem}
.key span{display:inline-flex;align-items:center;gap:.4rem}
.key svg.plan{width:2rem;height:1rem}

.findings{list-style:none;margin:0;padding:0}
.findings li{display:grid;grid-template-columns:auto minmax(0,1fr);gap:.3rem .7rem;padding:.7rem 0;border-top:1px solid var(--line);font-size:.9375rem}
.findings li:first-child{border-top:0;padding-top:0}
.findings li>svg.plan{width:28px}
.findings p{margin:0 0 .25rem;overflow-wrap:anywhere}
.findings .where{color:var(--soft)}
.findings .stop b{color:var(--stop)}
.findings .warn b{color:var(--warn)}
.findings .note b{color:var(--note)}
.cure::before{content:"Cure: ";font-weight:600}
.sound{color:var(--sound);font-weight:600}
.finding-box{max-height:44rem;overflow-y:auto}

.scroll{overflow-x:auto}
.figures th,.figures td{padding:.4rem .6rem;border-bottom:1px solid var(--line);text-align:right;vertical-align:top;font-variant-numeric:tabular-nums;font-size:.9375rem}
.figures thead th{vertical-align:bottom;color:var(--soft);font-size:.875rem;border-bottom:2px solid var(--line)}
.figures tbody th{text-align:left;font-weight:600}
.figures .alt{display:block}
.figures.words td,.figures.words th,.elements-table tr>:nth-child(2),.elements-table tr>:nth-child(6),.elements-table tr>:last-child,.joints-table tr>:nth-child(2),.shopping tr>:nth-child(2):not(td),.ordinates tr>th:first-child,.tests-told th:first-child{text-align:left}
.elements-table td:nth-child(6){min-width:13rem}
.elements-table td:nth-child(6) .alt{display:inline}
.shopping details>summary{padding:0;min-height:0}
.reasons{margin:.2rem 0 .4rem;padding-left:1.2rem;font-weight:400;font-size:.875rem;color:var(--soft)}
.figures.way{margin-bottom:1rem}
.passes thead tr:first-child th[colspan]{text-align:center;border-bottom:1px solid var(--line)}
.ordinates .none,.passes .none{text-align:center;color:var(--soft)}
.ordinates tbody+tbody tr:first-child>*{border-top:2px solid var(--line)}
.forming tbody th,.tests-told tbody th{font-weight:400}
.forming thead th:first-child{text-align:left}
.bench{display:grid;grid-template-columns:minmax(0,6fr) minmax(0,5fr);gap:.2rem 1.6rem;align-items:start}
.forming .alt{display:inline}
.figures.words td{overflow-wrap:anywhere}
.ordinates td,.ordinates thead th,.eased td,.passes td{white-space:nowrap}
.ordinates tbody th .alt{white-space:normal}
.forming,.eased,.passes{margin-bottom:.6rem}
.passes,.tests-told{width:auto}
.bend{border:1px solid var(--line);border-radius:.5rem;padding:.9rem 1rem .6rem;margin:0 0 1.1rem}
.bend h3{margin-top:0}
.chords{display:grid;grid-template-columns:repeat(auto-fit,minmax(min(19rem,100%),1fr));gap:.4rem 1.4rem;margin-bottom:.4rem}
.chords figure{margin:0;min-width:0}
.chords svg.plan{max-width:30rem}
figcaption{font-size:.9375rem;font-weight:600}
svg.chord text{text-anchor:middle}
.bent-rail{fill:none;stroke:var(--tie);stroke-width:8;stroke-linecap:butt}
.edge{fill:none;stroke:var(--moss);stroke-width:2}
.ordinate{fill:none;stroke:var(--brass);stroke-width:1.4}
.bench-notes{margin:.4rem 0 .8rem;padding-left:1.2rem}
.bench-notes li{margin:.2rem 0}
.care-line{font-size:.9375rem;margin:.6rem 0 .2rem}
.figures .remark{overflow-wrap:anywhere;max-width:14rem}
.figures tfoot th,.figures tfoot td{font-weight:700;border-bottom:0;border-top:2px solid var(--ink)}
.there td,.there th{color:var(--soft)}
.pieces-taken ul{list-style:none;margin:0;padding:0}
.pieces-taken tbody th,.pieces-taken td:nth-child(3),.pieces-laid tbody th{white-space:nowrap}
.figures.pieces-taken td,.figures.pieces-laid td{overflow-wrap:break-word}
.pieces-taken .alt,.pieces-laid .alt{display:inline}
.box{display:inline-block;width:1.05rem;height:1.05rem;border:1.5px solid var(--ink);border-radius:2px;vertical-align:-.15rem}
.facts{display:flex;flex-wrap:wrap;gap:.5rem 1.8rem;margin:0 0 .8rem}
.facts dt{color:var(--soft);font-size:.875rem}
.facts dd{margin:0;font-weight:600}
.defs{position:absolute}
.hatch{stroke:var(--soft);stroke-width:2}
.cuts{font-size:.9375rem}
.cuts th{text-align:left}
.cuts thead th{color:var(--soft);font-size:.875rem;padding:.3rem .5rem}
.cuts td{padding:.25rem .5rem;vertical-align:top}
.cuts .mark{font-weight:700}
.cuts td:nth-child(1){width:15%}
.cuts td:nth-child(2){width:14%}
.cuts td:nth-child(3){width:28%}
.cuts td ul{margin:0;padding:0;list-style:none}
.one{white-space:nowrap}
.stick th{padding:.9rem .5rem .3rem;border-top:1px solid var(--line);font-weight:600}
.bar{display:block;width:100%;height:auto;margin-top:.35rem}
.bar .piece{fill:var(--sound-tint);stroke:var(--rail)}
.bar .bent{fill:var(--bent)}
.bar .tick{stroke:var(--rail);stroke-width:1.2}
.bar *{vector-effect:non-scaling-stroke}
.bar .trim{fill:none;stroke:var(--soft);stroke-dasharray:2 2}
.bar .offcut{stroke:var(--soft);stroke-dasharray:3 3}
.bar text{font:600 13px system-ui,-apple-system,"Segoe UI",Roboto,Arial,sans-serif;fill:var(--ink);text-anchor:middle}
.pair{display:flex;gap:.3rem}
.pair select{flex:0 0 7.2rem}
select.narrow{width:auto}
svg.plan.readings{width:auto;max-width:none}
.axis{fill:none;stroke:var(--soft);stroke-width:1}
.reading{fill:var(--bent);stroke:var(--rail);stroke-width:.8}
.reading.good{fill:var(--sound-tint)}
.target{fill:none;stroke:var(--stop);stroke-width:2.4}
.throw{fill:none;stroke:var(--note);stroke-width:2.2;stroke-linejoin:round}
.still{fill:var(--soft)}
.sign-more,.sign-ease{fill:var(--warn);stroke:none}
.sign-good{fill:none;stroke:var(--sound);stroke-width:2.4}
svg.plan.readings .figure{text-anchor:middle}
.verdict{font-size:1.08rem}
.checked td{white-space:nowrap}
.checked .bend-more td:nth-child(8),.checked .ease td:nth-child(8){font-weight:700;color:var(--warn)}
.ask ol{padding-left:1.4rem;max-width:52rem}
.ask li{margin:.3rem 0}
.ask h3{margin-top:0}
.cautions{padding-left:1.2rem}
.cautions li{margin:.35rem 0}
.notes-text{white-space:pre-wrap;overflow-wrap:anywhere}
.only-print,.slide{display:none}

@media screen and (max-width:62rem){.sheet,.welcome{grid-template-columns:minmax(0,1fr)}.finding-box{max-height:none}.welcome{gap:.6rem}}
@media screen and (min-width:48.01rem){table.pieces{min-width:66rem}}
@media screen and (max-width:48rem){
.inside{padding:0 .9rem}
h1,.welcome h1{font-size:1.65rem}
.card,fieldset.card{padding:.9rem .85rem}
.summary{grid-template-columns:repeat(2,minmax(0,1fr));gap:.55rem}
.summary a{padding:.6rem .7rem}
.summary b{font-size:1.15rem}
.drawing svg.plan{min-width:36rem}
.fields{grid-template-columns:repeat(auto-fill,minmax(9.5rem,1fr));gap:.7rem .8rem}
.bar-buttons{position:static}
.bar-buttons .units{margin-left:0;width:100%}
.bench{grid-template-columns:minmax(0,1fr)}
.ordinates,.eased{min-width:38rem}
.ordinates tbody th{width:6.5rem}
.ordinates th,.ordinates td{padding:.35rem .3rem}
svg.chord text{font-size:14.5px}
svg.chord .small{font-size:13px}
.bend{padding:.7rem .6rem .5rem}
.forming .alt{display:block}
.forming th,.forming td{padding:.35rem .25rem}
table.edit thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
table.edit,table.edit tbody,table.edit caption{display:block}
table.edit tbody tr{display:grid;grid-template-columns:repeat(2,minmax(0,1fr));gap:.45rem .7rem;border:1px solid var(--line);border-radius:.5rem;padding:.5rem .6rem .6rem;margin-bottom:.7rem}
table.edit tbody th{grid-column:1/-1;width:auto;padding:0}
table.edit td{display:block;padding:0;width:auto}
table.edit td::before{display:block;font-size:.8125rem;font-weight:600;color:var(--soft);margin-bottom:.1rem}
table.edit td:last-child{grid-column:1/-1;width:auto;text-align:right}
table.elements tbody th::before{content:"Element "}
table.elements td:nth-child(n){width:auto}
table.elements td:nth-child(2)::before{content:"Kind"}
table.elements td:nth-child(3)::before{content:"Length"}
table.elements td:nth-child(4){grid-column:1/-1;flex-wrap:wrap}
table.elements td:nth-child(4)::before{content:"Size of curve";flex:0 0 100%}
table.elements td:nth-child(4) input{flex:1}
table.elements td:nth-child(5)::before{content:"Angle °"}
table.elements td:nth-child(6)::before{content:"Turns"}
table.elements td:last-child{grid-column:2;align-self:end}
table.elements td:nth-child(7)::before{content:"Remark"}
table.short td:nth-child(2)::before{content:"Distance from the start"}
table.short td:nth-child(3)::before{content:"Height of the rail"}
table.sticks tbody th::before{content:"Stick "}
table.short tbody th::before{content:"Point "}
table.breaks td:nth-child(3)::before{content:"What stands there"}
table.breaks tbody th::before{content:"Break "}
table.stretches td:nth-child(2)::before{content:"From"}
table.stretches td:nth-child(3)::before{content:"To"}
table.stretches td:nth-child(4){grid-column:1/-1}
table.stretches td:nth-child(4)::before{content:"Reason"}
table.stretches tbody th::before{content:"Stretch "}
table.sticks td:nth-child(2)::before{content:"Length of a stick"}
table.sticks td:nth-child(3)::before{content:"Price of a pack"}
table.sticks td:nth-child(4)::before{content:"Sticks in a pack"}
table.sticks td:nth-child(5)::before{content:"On hand"}
table.sticks td:nth-child(6)::before{content:"May be bought"}
table.pieces tbody th::before{content:"Piece "}
table.pieces td:nth-child(2)::before{content:"Name"}
table.pieces td:nth-child(3)::before{content:"Length"}
table.pieces td:nth-child(4){grid-column:1/-1;flex-wrap:wrap}
table.pieces td:nth-child(4)::before{content:"or size of curve";flex:0 0 100%}
table.pieces td:nth-child(4) input{flex:1}
table.pieces td:nth-child(5)::before{content:"Angle °"}
table.pieces td:nth-child(6)::before{content:"Ties with it"}
table.pieces td:nth-child(7)::before{content:"Joiners with it"}
table.pieces td:nth-child(8)::before{content:"Price of a pack"}
table.pieces td:nth-child(9)::before{content:"Pieces in a pack"}
table.pieces td:nth-child(10)::before{content:"On hand"}
table.pieces td:nth-child(11)::before{content:"May be bought"}
table.shelved td:nth-child(n):not(:last-child),table.moulded td:not(:last-child){width:auto}
table.shelved td:last-child,table.parts td:last-child{grid-column:2;align-self:end}
table.parts td:nth-child(2){grid-column:1/-1}
table.stocked td:nth-child(2)::before{content:"Rail section"}
table.stocked td:nth-child(3)::before{content:"Metal"}
table.stocked td:nth-child(4)::before{content:"Length"}
table.stocked td:nth-child(5)::before{content:"How many"}
table.stocked.shelved td:nth-child(4)::before{content:"Length of a straight"}
table.stocked.shelved td:nth-child(5)::before{content:"Diameter of a curve"}
table.stocked.shelved td:nth-child(6)::before{content:"Its angle, °"}
table.stocked.shelved td:nth-child(7)::before{content:"Ties on one"}
table.stocked.shelved td:nth-child(8)::before{content:"How many"}
table.stocked.parts td:nth-child(2)::before{content:"What"}
table.stocked.parts td:nth-child(3)::before{content:"Rail section"}
table.stocked.parts td:nth-child(4)::before{content:"Metal"}
table.stocked.moulded td:nth-child(2)::before{content:"Ties in a strip"}
table.stocked.moulded td:nth-child(3)::before{content:"How many"}
table.stocked td:last-child::before{content:none}
table.rectangles td:nth-child(2)::before{content:"Width"}
table.rectangles td:nth-child(3)::before{content:"Height"}
table.rectangles tbody th::before{content:"Rectangle "}
table.tests tbody th::before{content:"Test bend "}
table.tests td:nth-child(2)::before{content:"Bent to radius"}
table.tests td:nth-child(3)::before{content:"Kept radius"}
table.tests td:nth-child(4)::before{content:"Depth"}
table.tests td:nth-child(5)::before{content:"Turns"}
table.tests td:nth-child(6)::before{content:"Chord"}
table.tests td:nth-child(7)::before{content:"Ordinate"}
table.extras tbody th::before{content:"Extra "}
table.extras td:nth-child(2)::before{content:"Item"}
table.extras td:nth-child(3)::before{content:"Counted"}
table.extras td:nth-child(4)::before{content:"How many"}
table.extras td:nth-child(5)::before{content:"Price of a pack"}
table.extras td:nth-child(6)::before{content:"Pack of"}
table.extras td:nth-child(7)::before{content:"On hand"}
table.packs tbody tr{grid-template-columns:repeat(2,minmax(0,1fr))}
table.packs td:nth-child(2)::before{content:"Pack of"}
table.packs td:nth-child(3)::before{content:"Price of a pack"}
table.packs td:nth-child(4)::before{content:"On hand"}
table.packs td:nth-child(5)::before{content:"Spare, %"}
table.packs td:last-child{grid-column:auto;text-align:left}
table.edit tr.notes{display:block;border:0;padding:0;margin-top:-.4rem}
table.edit tr.notes td{padding:0}
.slide{display:block}
.pieces-taken thead,.pieces-laid thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.pieces-taken,.pieces-taken tbody,.pieces-laid,.pieces-laid tbody{display:block}
.pieces-taken tbody tr,.pieces-laid tbody tr{display:grid;grid-template-columns:3.2rem repeat(2,minmax(0,1fr));border-bottom:1px solid var(--line);padding:.45rem 0}
.figures.pieces-taken tbody tr>*,.figures.pieces-laid tbody tr>*{border:0;padding:.1rem .3rem;grid-column:2/-1}
.figures.pieces-taken tbody tr>th,.figures.pieces-laid tbody tr>th{grid-area:1/1}
.figures.pieces-laid tbody td:last-child{grid-area:1/2/auto/-1}
.figures.pieces-laid tbody td:nth-child(2){grid-column:2}
.figures.pieces-laid tbody td:nth-child(3){grid-column:3}
.pieces-taken td:nth-child(5)::before{content:"Left over: "}
.pieces-laid td:nth-child(2)::before{content:"from "}
.pieces-laid td:nth-child(3)::before{content:"to "}
.pieces-laid td:nth-child(4)::before{content:"Element "}
.pieces-laid .alt{display:block}
.shopping thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.shopping,.shopping tbody,.shopping tfoot{display:block}
.shopping tbody tr{display:grid;grid-template-columns:1.9rem repeat(3,minmax(0,1fr));border-bottom:1px solid var(--line);padding:.55rem 0}
.shopping tbody tr>*{border:0;padding:.1rem .3rem}
.shopping tbody th{grid-column:2/-1}
.shopping tbody td:nth-child(n+3){text-align:left}
.shopping tbody td:nth-child(3),.shopping tbody td:nth-child(6){grid-column:2}
.shopping tbody td::before{display:block;font-size:.8125rem;color:var(--soft)}
.shopping td:nth-child(3)::before{content:"Needed"}
.shopping td:nth-child(4)::before{content:"On hand"}
.shopping td:nth-child(5)::before{content:"To buy"}
.shopping td:nth-child(6)::before{content:"Packs"}
.shopping td:nth-child(7)::before{content:"Price of a pack"}
.shopping td:nth-child(8)::before{content:"Amount"}
.shopping tfoot tr{display:flex;justify-content:space-between}
.shopping tfoot tr>*{border:0}
.cuts thead{position:absolute;width:1px;height:1px;overflow:hidden;clip-path:inset(50%)}
.cuts,.cuts tbody,.cuts .stick,.cuts .stick th{display:block}
.cuts tbody tr:not(.stick){display:grid;grid-template-columns:3.4rem minmax(0,1fr);gap:0 .4rem;padding:.3rem 0}
.bar{height:18px}
.bar text{display:none}
.cuts td:nth-child(4)::before{content:"Bend: ";font-weight:600}
.cuts td ul{display:inline}
.cuts td li{display:inline}
.cuts td li+li::before{content:"; then "}
.cuts td,.cuts td:nth-child(n){padding:.05rem .3rem;width:auto}
.cuts td:nth-child(n+3){grid-column:2}
}

@media print{
:root{--paper:#fff;--card:#fff;--ink:#000;--soft:#444;--line:#bbb;--moss:#000;--moss-ink:#fff;--brass:#000;--band:#e8e8e8;--tie:#aaa;--rail:#000;--grid:#eee;
--stop:#000;--warn:#000;--note:#000;--stop-tint:#fff;--warn-tint:#fff;--note-tint:#fff;--sound:#000;--sound-tint:#fff;--bent:#bbb;--shadow:none}
@page{margin:12mm}
body{font-size:9pt;line-height:1.3}
.top,footer,.jumps,.editor,.skip,.no-print,.welcome{display:none}
.only-print{display:block}
.inside{max-width:none;padding:0}
h1{font-size:16pt;margin:0 0 4pt}
h2{font-size:12.5pt;margin:0 0 4pt}
h3{font-size:10pt;margin:8pt 0 3pt}
p{margin:2pt 0 4pt}
.card{border:0;padding:0;margin:0 0 12pt;box-shadow:none;border-radius:0;background:none}
.sheet{display:block}
.part{break-before:page}
h2,h3,caption,.stick{break-after:avoid}
tr,li,svg,.bend,.eased,.calibration,.facts,.cuts tbody{break-inside:avoid}
thead{display:table-header-group}
tfoot{display:table-row-group}
.scroll,.drawing,.finding-box{overflow:visible;max-height:none}
.summary{grid-template-columns:repeat(4,1fr);margin:6pt 0}
.summary a{padding:4pt 6pt;border-color:#999}
.summary b{font-size:11pt}
.summary b .alt{font-size:8.5pt}
svg.plan,.bar,.box{-webkit-print-color-adjust:exact;print-color-adjust:exact}
.drawing svg.plan{max-height:120mm}
.figures th,.figures td{padding:2pt 4pt;font-size:8pt}
.elements-table th,.elements-table td{padding:1.5pt 2.5pt;font-size:7.5pt}
.elements-table td:nth-child(6){min-width:0}
.bend{padding:5pt 7pt 3pt;margin-bottom:8pt;border-color:#999;border-radius:3pt}
.chords{grid-template-columns:1fr 1fr}
.bench{gap:2pt 12pt}
.ordinates td .alt{display:inline}
.ordinates td,.ordinates thead th{white-space:normal}
.forming th,.forming td,.eased th,.eased td,.passes th,.passes td{padding:1pt 3pt;font-size:7.5pt}
.chords svg.plan{max-height:30mm}
figcaption,.care-line,.bench-notes{font-size:8.5pt}
.bench-notes{margin:2pt 0 3pt}
svg.plan.readings{max-width:100%;height:auto}
#check{display:none}
.verdict{font-size:10.5pt}
.checked th,.checked td{padding:1.5pt 3pt;font-size:7.5pt}
.checked td:nth-child(7),.checked td:nth-child(6){white-space:normal}
.ask{border:1pt solid #888;padding:5pt 7pt;break-inside:avoid}
.care{break-before:auto;break-inside:avoid}
.cuts{font-size:8pt}
.stick th{padding:5pt 4pt 1pt}
.facts{gap:3pt 14pt;margin-bottom:4pt}
.findings li{padding:4pt 0;font-size:9pt}
.key{font-size:8pt}
.bar{height:13pt;margin-top:2pt}
.cuts td{padding:1pt 4pt}
.hint,.figures thead th,.cuts thead th,.facts dt,.summary span{font-size:7.5pt}
.alt{font-size:.9em}
a{color:inherit;text-decoration:none}
}
`

const hash = createHash('sha256').update(STYLESHEET).digest('hex').slice(0, 12)

export const STYLESHEET_PATH = `/longchord-${hash}.css`
