#include "style.h"

#include <stddef.h>

/* Black on white, one serif face that the reader's machine has, thin rules; nothing that needs
 * colour. A table of class `wide` puts the head of each row on a line of its own where the page is
 * narrow. Margin boxes of @page: CSS Paged Media Module Level 3, sec. 4. */
const char *const brake_style[] = {
    /* text */
    ":root{color-scheme:light}\n"
    "*{box-sizing:border-box}\n"
    "body{margin:0 auto;padding:1.25rem 1rem 3rem;max-width:52rem;background:#fff;color:#000;"
    "font:1rem/1.45 Charter,'Bitstream Charter','Iowan Old Style',Georgia,'DejaVu Serif',serif;"
    "overflow-wrap:anywhere}\n"
    "h1{font-size:1.6rem;line-height:1.2;margin:0 0 .2rem}\n"
    "h2{font-size:1.15rem;margin:2.2rem 0 .6rem;padding-top:.4rem;border-top:1px solid #000}\n"
    "h3{font-size:1rem;margin:1.2rem 0 .4rem}\n"
    "p,ul,ol,dl{margin:.4rem 0}\n"
    "ul,ol{padding-left:1.2rem}\n"
    "small,.small{font-size:.82rem}\n"
    ".kind{margin:0;letter-spacing:.04em}\n"
    ".caution,.box{border:1px solid #000;padding:.5rem .75rem;margin:1rem 0}\n"
    ".caution{border-width:2px 0}\n"
    ".verdict{font-size:1.15rem}\n"
    ".number{text-align:right;font-variant-numeric:tabular-nums}\n"
    "dl.facts{display:grid;grid-template-columns:max-content 1fr;gap:.1rem 1rem}\n"
    "dl.facts dd{margin:0}\n",
    /* tables */
    "table{width:100%;border-collapse:collapse;font-size:.86rem;line-height:1.3}\n"
    "caption{text-align:left;font-style:italic;padding-bottom:.3rem}\n"
    "th,td{text-align:left;vertical-align:top;padding:.25rem .6rem .25rem 0;font-weight:normal}\n"
    "thead th{font-style:italic;vertical-align:bottom;border-bottom:1px solid #000}\n"
    "tbody tr{border-bottom:1px solid #999}\n"
    "td.strong,strong{font-weight:bold}\n"
    "@media screen and (max-width:38rem){\n"
    "table.wide,table.wide thead,table.wide tbody{display:block}\n"
    "table.wide caption{display:block}\n"
    "table.wide tr{display:grid;grid-auto-flow:column;grid-auto-columns:minmax(0,1fr);"
    "grid-template-rows:auto auto}\n"
    "table.wide.of4 tr>:first-child{grid-column:1/span 3}\n"
    "table.wide.of5 tr>:first-child{grid-column:1/span 4}\n"
    "table.wide.of6 tr>:first-child{grid-column:1/span 5}\n"
    "table.wide tr>:not(:first-child){grid-row:2}\n"
    "table.wide thead th{border-bottom:0}\n"
    "table.wide thead tr{border-bottom:1px solid #000}\n"
    "}\n",
    /* pictures and blanks */
    "figure{margin:1.2rem 0}\n"
    "figcaption{font-size:.86rem;margin-top:.3rem}\n"
    "svg{display:block;width:100%;max-width:40rem;height:auto;font-family:inherit}\n"
    ".blank{display:grid;grid-template-columns:minmax(0,1fr) minmax(0,1fr);gap:.75rem;"
    "align-items:end;margin:.7rem 0}\n"
    ".blank i{display:block;border-bottom:1px solid #000;height:1.4rem}\n"
    "ul.ticks{list-style:none;padding:0}\n"
    "ul.ticks li{padding:.25rem 0 .25rem 1.7rem;position:relative;border-bottom:1px solid #999}\n"
    "ul.ticks li::before{content:'';position:absolute;left:.1rem;top:.45rem;width:.85rem;"
    "height:.85rem;border:1px solid #000}\n",
    /* paper */
    "@page{margin:20mm 16mm 18mm;"
    "@top-left{content:'A calculation is not an approval: a qualified inspector must check the "
    "brakes.';font:italic 8pt Georgia,'DejaVu Serif',serif;white-space:nowrap}"
    "@bottom-right{content:'Page ' counter(page) ' of ' counter(pages);"
    "font:8pt Georgia,'DejaVu Serif',serif}}\n"
    "@media print{\n"
    "body{padding:0;max-width:none;font-size:10pt}\n"
    "h1{font-size:17pt}\n"
    "h2,h3,caption{break-after:avoid}\n"
    "p,li{orphans:3;widows:3}\n"
    "tr,figure,.box,.caution,.blank,li,dl.facts{break-inside:avoid}\n"
    "thead{display:table-header-group}\n"
    "svg{max-width:135mm}\n"
    ".sheet{break-before:page}\n"
    "}\n",
    NULL};
