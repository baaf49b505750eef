#version 330 core
//include compose.glsl
//include light.glsl
//include materials.glsl
//include ray.glsl

in vec2 uv;
out vec4 colour;

uniform vec3 upper;          // the page behind the board
uniform vec3 lower;
uniform mat4 clipFromWorld;
uniform ivec2 foilOn;        // foil on the face that is up, on the face that is down
uniform int paint;           // 1 depth, 2 foil left, 3 margin, 4 tool
uniform float turnRad;       // turns the taps from one summed frame to the next
uniform float screenUnit;    // pixels that a pixel of a pattern takes
uniform int chosenRun;       // tinted run, -1 for none
uniform vec2 paintRange;     // ends of the colour scale, mm
uniform float seeThrough;      // how strongly cuts from the far face show
#if FIELD == 1
uniform sampler2D fieldMap;  // values by place, -1e9 where there is none
uniform vec4 fieldFrame;     // x0, y0, 1 / (columns cell), 1 / (rows cell)
#endif
#if HIGHLIGHT == 1
uniform sampler2D highlightMap;
uniform vec4 highlightFrame;
#endif

int layerAt(float z, float s, bool steep) {
    int foil = z >= s - 0.0005 ? FOIL : steep ? FOIL_EDGE : FOIL_LEFT;
    int deep = z > zLayers.w ? TAPE : WOOD;
    int core = foilOn.y == 1 && z < -zLayers.x + zLayers.y ? FAR_FOIL : BARE;
    int layer = foilOn.x == 1 && z > s - zLayers.y ? foil : z > -zLayers.x ? core : deep;
    return layer;
}

vec3 ramp(float t) {
    // Dark blue over teal to pale yellow: lightness rises evenly, so that it reads in grey and for every eye.
    t = clamp(t, 0.0, 1.0);
    vec3 a = vec3(0.11, 0.09, 0.35), b = vec3(0.10, 0.36, 0.52), c = vec3(0.18, 0.62, 0.55), d = vec3(0.97, 0.93, 0.56);
    return t < 0.33 ? mix(a, b, t / 0.33) : t < 0.66 ? mix(b, c, (t - 0.33) / 0.33) : mix(c, d, (t - 0.66) / 0.34);
}

vec3 toolColour(int k) {
    // Told apart by every kind of colour vision: eight hues of differing lightness (palette of Okabe and Ito).
    vec3 c[8] = vec3[8](vec3(0.00, 0.45, 0.70), vec3(0.90, 0.62, 0.00), vec3(0.00, 0.62, 0.45), vec3(0.80, 0.47, 0.65),
            vec3(0.34, 0.71, 0.91), vec3(0.84, 0.37, 0.00), vec3(0.94, 0.89, 0.26), vec3(0.55, 0.55, 0.55));
    return c[k % 8];
}

#if FINE == 1
float hash(vec2 p) {
    vec3 q = fract(vec3(p.xyx) * vec3(0.1031, 0.1030, 0.0973));
    q += dot(q, q.yzx + 33.33);
    return fract((q.x + q.y) * q.z);
}

float heightNear(vec2 q) {
    bool inside = all(greaterThan(q, vec2(0.0))) && all(lessThan(q, 2.0 / bow.yz));
    return composedNear(q, inside ? foilTop(q) : zLayers.w);
}

// One tap a frame, turned from frame to frame and pixel to pixel; the summed frames make the smooth whole.
float occlusionAt(vec2 p, float h, float radius) {
    float turn = hash(gl_FragCoord.xy);
    float a = turnRad + turn * 6.2832;
    float r = radius * (0.25 + 0.75 * fract(turn * 7.0 + turnRad));
    float rise = clamp((heightNear(p + r * vec2(cos(a), sin(a))) - h) * zFactor / r, 0.0, 2.0);
    return 1.0 - rise / (1.0 + rise);
}

float shadowAt(vec2 p, float h) {
    vec2 dir = keyDirection.xy / max(keyDirection.z, 0.25);
    float t = pixelMm * (0.7 + 1.6 * hash(gl_FragCoord.yx + turnRad));
    float shade = 1.0;
    for (int i = 0; i < 2; i++) {
        float over = heightNear(p + dir * t) - (h + t / zFactor);
        shade = min(shade, 1.0 - clamp(over * zFactor / (0.3 * t + pixelMm), 0.0, 1.0));
        t *= 4.5;
    }
    return mix(0.25, 1.0, shade);
}
#endif


#if FIELD == 1 || HIGHLIGHT == 1
float looked(sampler2D map, vec4 frame, vec2 p) {
    vec2 uv = (p - frame.xy) * frame.zw;
    bool inside = all(greaterThanEqual(uv, vec2(0.0))) && all(lessThan(uv, vec2(1.0)));
    return inside ? textureLod(map, uv, 0.0).r : -1e9;
}
#endif

// The colour of a value, as it is shown: what the legend shows is what the picture shows.
vec3 painted(vec2 p, float h, float s, int who, vec3 base) {
    float grey = sqrt(dot(base, vec3(0.3, 0.55, 0.15)) * 0.4 + 0.12);
#if FIELD == 1
    float v = looked(fieldMap, fieldFrame, p);
    bool none = v < -1e8;
    vec3 c = ramp((v - paintRange.x) / (paintRange.y - paintRange.x));
    // Copper that is wide enough is no news.
    c = paint == 7 && v >= paintRange.y * 0.985 ? vec3(0.80) : c;
#else
    float v = paint == 1 ? s - h : paint == 2 ? h - (s - zLayers.y) : (s - zLayers.y) - h;
    bool none = who < 0;
    vec3 c = paint == 4 ? toolColour(max(who, 0)) : ramp((v - paintRange.x) / (paintRange.y - paintRange.x));
    c = paint == 2 && v <= 0.0 ? vec3(grey * 0.55) : c;
#endif
    return none ? vec3(grey) : c;
}

#if COMPARED == 1
// Copper under both conditions grey, under neither dark; extra copper blue with stripes to the right, missing copper
// orange with stripes to the left: told apart by direction as well as colour.
vec3 difference(vec2 p, bool now) {
    bool before = baseCopper(p);
    vec2 at = gl_FragCoord.xy / screenUnit;
    float right = mod(at.x - at.y, 8.0);
    float left = mod(at.x + at.y, 8.0);
    vec3 extra = right < 4.0 ? vec3(0.0, 0.32, 0.62) : vec3(0.56, 0.80, 1.0);
    vec3 missing = left < 4.0 ? vec3(0.72, 0.28, 0.0) : vec3(1.0, 0.80, 0.50);
    return now ? (before ? vec3(0.80) : extra) : before ? missing : vec3(0.36);
}
#endif

#if FINE == 1
// Of the face that is seen; of the underside, how far it is cut inwards counts downwards.
float heightAt(vec2 p, float s, bool below) {
    int who;
#if LIFTED == 1
    if (below) {
        return -underside(p);
    }
#endif
    return composed(p, s, who);
}
#endif

void main() {
    vec3 v;
    Hit hit = castRay(uv, v);
    vec2 p = hit.p.xy;
    float s = hit.s;
    float h = hit.h;
    int who = hit.who;
    bool on = onBlank(p) && hit.p.z > zLayers.w - 1e-4;
    vec3 bent = vec3(p, hit.p.z * zFactor);
#if COARSE == 1
    float share = hit.share;
#else
    float share = 1.0;
#endif
    float edge = 0.0;
    vec3 n = vec3(0.0, 0.0, 1.0);
    bool wall = hit.wall;
    vec3 facing = normalize(vec3(v.xy, 0.15));
#if FINE == 1
    float reach = max(0.6 * hit.px, (CLOSE == 1 ? 0.6 : 1.0) / runOrigin[0].z);
    vec2 right = p + vec2(reach, 0.0);
    vec2 ahead = p + vec2(0.0, reach);
#if CLOSE == 1
    // Slopes from both sides, over more than a cell: walls are smooth across cells.
    vec2 slope = vec2(heightAt(right, s, hit.below) - heightAt(p - vec2(reach, 0.0), s, hit.below),
            heightAt(ahead, s, hit.below) - heightAt(p - vec2(0.0, reach), s, hit.below)) / (2.0 * reach);
#else
    float here = hit.below ? -hit.under : h;
    vec2 slope = vec2(heightAt(right, s, hit.below) - here, heightAt(ahead, s, hit.below) - here) / reach;
#endif
    n = normalize(vec3(-slope * zFactor, 1.0));
    // Where the ray meets a floor close to a wall, the floor is what is seen.
    n = wall ? (n.z < 0.5 ? n : facing) : length(slope) < 6.0 ? n : vec3(0.0, 0.0, 1.0);
    // A thin dark line where copper ends: the edge is seen without colour.
    float sunk = hit.below ? hit.under + zLayers.x - zLayers.y : h - (s - zLayers.y);
    float away = abs(sunk) / max(length(slope), 1e-4);
    edge = on && !hit.side ? 1.0 - smoothstep(0.4, 1.2, away / hit.px) : 0.0;
    bool steep = wall || n.z < 0.75;
#else
    n = wall ? facing : n;
    // No slope is looked up while something moves: a height that changes from pixel to pixel is a wall's.
    bool steep = wall || fwidth(h) > 0.4 * hit.px;
#endif
    n = hit.side ? hit.face : n;
    wall = wall || hit.side;
    float z = wall ? min(hit.p.z, s) : h;
    int layer = layerAt(z, s, steep || hit.side);
    layer = onBlank(p) ? layer : WOOD;
#if LIFTED == 1
    if (hit.below) {
        z = hit.p.z;
        n = vec3(n.xy, -n.z);
        float inwards = hit.under + zLayers.x;
        layer = foilOn.y == 1 && inwards < zLayers.y ? (inwards < 0.0005 ? FOIL : steep ? FOIL_EDGE : FOIL_LEFT) : BARE;
        share = 1.0;
    }
#endif
    vec2 grain = wall ? vec2(p.x + p.y, z) : p;
    share = hit.side ? 1.0 : share;
    int above = on ? layerAt(s, s, false) : WOOD;
#if FINE == 0
    Stuff m = quickStuff(layer, above, share, grain);
    Stuff uncut = m;
#elif COARSE == 1
    // A pixel that is part groove is part foil.
    Stuff m = stuffOf(layer, grain);
    Stuff uncut = stuffOf(above, grain);
    m = Stuff(mix(uncut.albedo, m.albedo, share), mix(uncut.metal, m.metal, share), mix(uncut.rough, m.rough, share),
            mix(uncut.bend, m.bend, share));
#else
    Stuff m = stuffOf(layer, grain);
#endif
    n = wall ? n : normalize(n + vec3(m.bend, 0.0));
    float occlusion = 1.0;
    float shadow = 1.0;
#if FINE == 1 && LIFTED == 0
    occlusion = hit.side ? 1.0 : occlusionAt(p, z, clamp(8.0 * hit.px, 0.02, 1.2));
    shadow = hit.side ? 1.0 : shadowAt(p, z);
#elif FINE == 0
    occlusion = 1.0 - 0.3 * share * clamp((s - z) * zFactor * 6.0, 0.0, 1.0);
#endif
    vec3 c = shownColour(lit(m.albedo, m.metal, m.rough, n, v, occlusion, shadow));
#if PAINTED == 1
    vec3 shown = painted(p, wall ? z : h, s, wall && who < 0 && paint != 4 ? 0 : who, m.albedo);
    shown = onBlank(p) && !hit.side && !hit.below ? shown : vec3(sqrt(dot(m.albedo, vec3(0.3, 0.55, 0.15)) * 0.4 + 0.12));
#if COARSE == 1 && FIELD == 0
    shown = mix(painted(p, s, s, -1, uncut.albedo), shown, share);
#endif
    c = shown * mix(0.82, 1.0, occlusion * shadow) * mix(0.86, 1.0, clamp(abs(n.z), 0.0, 1.0));
#endif
    // Foil left is hatched on the screen, so that it is found at any size: dark and pale stripes, told by lightness too.
    float stripe = mod((gl_FragCoord.x + gl_FragCoord.y) / screenUnit, 8.0);
    vec3 hatch = stripe < 4.0 ? vec3(0.80, 0.05, 0.45) : vec3(1.0, 0.86, 0.94);
    c = layer == FOIL_LEFT && PAINTED == 0 ? mix(c, hatch, 0.85 * share) : c;
    c = chosenRun >= 0 && who == chosenRun ? mix(c, vec3(0.25, 0.75, 1.0), 0.35 * share) : c;
#if COMPARED == 1
    c = on && !wall && !hit.below ? difference(p, foilOn.x == 1 && composed(p, s, who) > s - zLayers.y) : mix(c, vec3(0.5), 0.7);
#endif
#if HIGHLIGHT == 1
    // Joined copper: blue with a net of pale dots.
    vec2 net = mod(floor(gl_FragCoord.xy / screenUnit), 6.0);
    bool dot4 = net.x < 2.0 && net.y < 2.0;
    c = on && !wall && !hit.below && looked(highlightMap, highlightFrame, p) > -1e8
            ? mix(c, dot4 ? vec3(0.80, 0.95, 1.0) : vec3(0.05, 0.42, 0.92), 0.62) : c;
#endif
    c *= 1.0 - 0.5 * edge;
#if FARCUT == 1
    if (seeThrough > 0.0 && on && foilOn.y == 1) {
        float inwards = underside(p) + zLayers.x;
        float dash = mod((gl_FragCoord.x - gl_FragCoord.y) / screenUnit, 6.0);
        c = inwards >= zLayers.y ? mix(c, dash < 3.0 ? vec3(0.05, 0.12, 0.45) : vec3(0.70, 0.82, 1.0), seeThrough) : c;
    }
#endif
#if DEPTH == 1
    vec4 clip = clipFromWorld * vec4(bent, 1.0);
    gl_FragDepth = hit.met ? clamp(clip.z / clip.w * 0.5 + 0.5, 0.0, 1.0) : 1.0;
#endif
    // How much foil the pixel shows goes with it: comparisons of two pictures need it.
    float foil = hit.met && on ? (layer <= FAR_FOIL ? 1.0 : mix(0.5, 1.0, 1.0 - share)) : 0.0;
    colour = vec4(hit.met ? c : mix(lower, upper, uv.y), foil);
}
