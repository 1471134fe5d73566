//! How is the place set up? A line drawing with words: counter, person, phone, chair and clear floor.

/// The picture as SVG, seen from the side.
pub(super) const PICTURE: &str = "\
<svg role=\"img\" aria-labelledby=\"place-title place-words\" viewBox=\"0 0 720 350\" xmlns=\"http://www.w3.org/2000/svg\" \
fill=\"none\" stroke=\"#000\" stroke-width=\"4\" stroke-linecap=\"round\" stroke-linejoin=\"round\" font-family=\"sans-serif\" \
font-size=\"22\">\
<title id=\"place-title\">The place, seen from the side</title>\
<desc id=\"place-words\">You stand in firm shoes, facing a fixed kitchen counter, with a hand on it. The phone lies on the counter \
within reach. Behind you are 1.5 meters of clear, dry floor, or a wall. A firm chair stands near.</desc>\
<path d=\"M10 300 H710\"/>\
<path d=\"M20 160 H196 V176 H20 Z\" fill=\"#fff\"/><path d=\"M28 176 V300 M184 176 V300 M106 184 V292\"/>\
<circle cx=\"94\" cy=\"236\" r=\"4\"/><circle cx=\"118\" cy=\"236\" r=\"4\"/>\
<rect x=\"66\" y=\"148\" width=\"60\" height=\"11\" rx=\"5\"/>\
<circle cx=\"266\" cy=\"56\" r=\"27\"/>\
<path d=\"M268 84 C262 120 262 150 266 186\" stroke-width=\"7\"/>\
<path d=\"M266 104 L232 140 L190 156\" stroke-width=\"7\"/>\
<path d=\"M266 104 L250 150 L226 176\" stroke-width=\"7\"/>\
<path d=\"M266 186 L256 240 L258 288 M266 186 L284 240 L284 288\" stroke-width=\"7\"/>\
<path d=\"M266 288 H236 Q232 298 240 298 H266 Z M292 288 H262 Q258 298 266 298 H292 Z\" fill=\"#fff\"/>\
<path d=\"M600 236 H668 M604 236 V300 M664 150 V300 M664 150 Q672 146 672 156\"/>\
<path d=\"M312 322 H580 M324 314 L312 322 L324 330 M568 314 L580 322 L568 330\" stroke-width=\"3\"/>\
<g fill=\"#000\" stroke=\"none\">\
<text x=\"70\" y=\"136\">phone</text><text x=\"20\" y=\"336\">fixed counter</text>\
<text x=\"306\" y=\"64\">you, facing the counter,</text><text x=\"306\" y=\"92\">a hand on it, firm shoes</text>\
<text x=\"330\" y=\"256\">clear, dry floor: 1.5 m,</text><text x=\"330\" y=\"284\">or a wall behind you</text>\
<text x=\"584\" y=\"336\">firm chair</text></g>\
</svg>";
