/* SPDX-License-Identifier: GPL-3.0-or-later */
/* What the page looks like and does: one sheet of style, one short script. */
#ifndef DEW_REPORT_PAGE_STYLE_H
#define DEW_REPORT_PAGE_STYLE_H

/* clang-format off */
static const char dew__page_style[] =
":root{--ink:#16202b;--soft:#4a5661;--rule:#c9c4b6;--paper:#fdfcf8;--wash:#f1eee4;--stop:#8c1c2c}\n"
"*{box-sizing:border-box}\n"
"body{margin:0 auto;max-width:68rem;padding:1rem;font:1rem/1.5 Georgia,'Liberation Serif',serif;color:var(--ink);background:var(--paper)}\n"
"h1,h2,h3,th,summary,.legend,svg text,output,nav{font-family:'Helvetica Neue',Arial,'Liberation Sans',sans-serif}\n"
"h1{font-size:1.7rem;line-height:1.2;margin:.5rem 0}\n"
"h2{font-size:1.3rem;border-bottom:2px solid var(--ink);margin:2.2rem 0 .8rem;padding-bottom:.2rem}\n"
"h3{font-size:1.05rem;margin:0 0 .3rem}\n"
"a{color:#1d3d7a}\n"
"nav ul{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.2rem 1.1rem;margin:.4rem 0}\n"
".stop{border:3px solid var(--stop);padding:.2rem 1rem 1rem;margin:1rem 0;background:#fff}\n"
".stop h2{border:0;color:var(--stop);margin-top:.6rem}\n"
".level{font:700 .85rem Arial,'Liberation Sans',sans-serif;border:2px solid;padding:0 .35rem;margin-right:.4rem}\n"
"ol.says{padding-left:1.4rem}ol.says li{margin:.45rem 0}\n"
"ul.cautions{list-style:none;padding:0}ul.cautions li{margin:.7rem 0}\n"
".wide{overflow-x:auto}\n"
"table{border-collapse:collapse;font-size:.92rem;font-variant-numeric:tabular-nums;min-width:100%}\n"
"caption{text-align:left;color:var(--soft);padding:.2rem 0}\n"
"th,td{padding:.25rem .5rem;border-bottom:1px solid var(--rule);text-align:right;vertical-align:bottom}\n"
"th[scope=row],td.words{text-align:left;font-weight:400}thead th:first-child{text-align:left}.wide{margin-bottom:1rem}figure .wide{margin-bottom:0}thead th{border-bottom:2px solid var(--ink);font-size:.8rem}\n"
"tr.best th,tr.best td{background:#e4ecdf}\n"
"figure{margin:1.4rem 0;padding:1rem;background:#fff;border:1px solid var(--rule);break-inside:avoid}\n"
"figure p{margin:.2rem 0 .6rem;color:var(--soft)}\n"
"figure svg[role]{display:block;width:100%;min-width:34rem;height:auto}\n"
"svg text{font-size:12.5px;fill:var(--ink)}svg .up{text-anchor:end}svg .along{text-anchor:middle}\n"
".frame{fill:none;stroke:var(--ink);stroke-width:1.4}.grid{stroke:#dcd8cb;stroke-width:1}\n"
".none{position:absolute;width:0;height:0}.clear{fill:#000;fill-opacity:0}\n"
".some{fill:#e8dfc4}.much{fill:#cbb784}.dots{fill:none;stroke:#274690;stroke-width:4;stroke-linecap:round;stroke-opacity:.55}\n"
"[class^=l]{fill:none;stroke-width:2}.l0{stroke:#274690}.l1{stroke:#7a4a00;stroke-dasharray:6 3}.l2{stroke:#2c6e51;stroke-dasharray:2 3}.l3{stroke:#8c1c2c;stroke-width:2.6;stroke-dasharray:10 4}\n"
".t0{fill:url(#p0)}.t1{fill:url(#p1)}.t2{fill:url(#p2)}.t3{fill:url(#p3)}.t4{fill:url(#p4)}.t5{fill:url(#p5)}.t6{fill:url(#p6)}.t7{fill:url(#p7)}\n"
"[class^=t][x]{stroke:var(--ink);stroke-width:.7}[data-v]:hover,[data-v].on{stroke:#000;stroke-width:2}\n"
".legend{list-style:none;padding:0;display:flex;flex-wrap:wrap;gap:.2rem 1.2rem;margin:.5rem 0;font-size:.88rem}\n"
".legend svg{width:26px;height:14px;margin-right:.4rem;vertical-align:-2px}\n"
"output{display:block;min-height:1.5em;font-size:.9rem;color:var(--soft)}\n"
"summary{cursor:pointer;font-size:.9rem}:focus-visible{outline:3px solid #1d3d7a;outline-offset:2px}\n"
".map td,.map th{padding:.15rem .2rem;font-size:.78rem;text-align:center}.map th[scope=row]{text-align:left}\n"
".m1{background:#fdf6e3;font-style:italic}.m2{background:#fff}.m3{background:#e3ecf4}.m4{background:#aac6dd;font-weight:700}.m5{background:#7fa8ca;font-weight:700}\n"
".inputs td,.inputs th{text-align:left;font-size:.85rem}.preset td{color:var(--soft)}\n"
"code{font-size:.85em;overflow-wrap:anywhere}\n"
"@media print{body{max-width:none;padding:0;font-size:10pt;background:#fff}@page{size:A4;margin:14mm}nav,output{display:none}.wide{overflow:visible}"
"figure svg[role]{min-width:0}h2{break-after:avoid}table{font-size:8.5pt}th,td{padding:1mm}*{print-color-adjust:exact;-webkit-print-color-adjust:exact}}\n";

static const char dew__page_script[] =
"document.querySelectorAll('figure').forEach(function(f){\n"
"var o=f.querySelector('output'),m=[].slice.call(f.querySelectorAll('[data-v]')),at=-1;\n"
"if(!o||!m.length)return;\n"
"function show(i){if(at>=0)m[at].classList.remove('on');at=i;m[i].classList.add('on');o.textContent=m[i].getAttribute('data-v')}\n"
"m.forEach(function(e,i){e.addEventListener('pointerenter',function(){show(i)})});\n"
"f.querySelector('.wide').addEventListener('keydown',function(e){\n"
"if(e.key!=='ArrowRight'&&e.key!=='ArrowLeft')return;e.preventDefault();\n"
"show((at+(e.key==='ArrowRight'?1:m.length-1)+m.length)%m.length)});\n"
"o.textContent='Point at a mark, or walk with the arrow keys.'});\n"
"window.addEventListener('beforeprint',function(){document.querySelectorAll('details').forEach(function(d){d.open=true})});\n";
/* clang-format on */

#endif
