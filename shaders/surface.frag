#version 330 core
//include compose.glsl
//include light.glsl
//include materials.glsl

in vec3 world;
flat in int region;          // 0 blank, 1 the blank's sides, 2 spoil board
out vec4 colour;

uniform float zFactor;
uniform ivec2 foilOn;        // foil on the face that is up, on the face that is down
uniform int paint;           // 1 depth, 2 foil left, 3 margin, 4 tool
uniform float turnRad;       // turns the taps from one summed frame to the next
uniform float pixelMm;       // size of a pixel at the point that is looked at
uniform int chosenRun;       // tinted run, -1 for none
uniform vec2 paintRange;     // ends of the colour scale, mm
uniform float through;       // how strongly cuts from the far face show
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
    return region == 2 ? WOOD : layer;
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
    for (int i = 0; i < 3; i++) {
        float over = heightNear(p + dir * t) - (h + t / zFactor);
        shade = min(shade, 1.0 - clamp(over * zFactor / (0.3 * t + pixelMm), 0.0, 1.0));
        t *= 3.1;
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
#else
    float v = paint == 1 ? s - h : paint == 2 ? h - (s - zLayers.y) : (s - zLayers.y) - h;
    bool none = who < 0;
    vec3 c = paint == 4 ? toolColour(max(who, 0)) : ramp((v - paintRange.x) / (paintRange.y - paintRange.x));
    c = paint == 2 && v <= 0.0 ? vec3(grey * 0.55) : c;
#endif
    return none || region == 2 ? vec3(grey) : c;
}

#if COMPARED == 1
// Copper under both conditions grey, under neither dark; extra copper blue with stripes to the right, missing copper
// orange with stripes to the left: told apart by direction as well as colour.
vec3 difference(vec2 p, bool now) {
    bool before = baseCopper(p);
    float right = mod(gl_FragCoord.x - gl_FragCoord.y, 8.0);
    float left = mod(gl_FragCoord.x + gl_FragCoord.y, 8.0);
    vec3 extra = right < 4.0 ? vec3(0.0, 0.32, 0.62) : vec3(0.56, 0.80, 1.0);
    vec3 missing = left < 4.0 ? vec3(0.72, 0.28, 0.0) : vec3(1.0, 0.80, 0.50);
    return now ? (before ? vec3(0.80) : extra) : before ? missing : vec3(0.36);
}
#endif

void main() {
    vec2 p = world.xy;
    vec3 bent = vec3(world.xy, world.z * zFactor);
    vec3 v = eyeDirection.w > 0.5 ? eyeDirection.xyz : normalize(eye - bent);
    vec3 meshNormal = cross(dFdx(bent), dFdy(bent));
    meshNormal = meshNormal / max(length(meshNormal), 1e-20);
    meshNormal = dot(meshNormal, v) < 0.0 ? -meshNormal : meshNormal;

    int who = -1;
    float share = 1.0;
    float edge = 0.0;
    float s = region == 2 ? zLayers.w : foilTop(p);
#if PART == 0
#if COARSE == 1
    vec2 at = p;
#if FINE == 1
    // Looked up about the place, differently in every summed frame: the blocks melt into each other.
    at += (vec2(hash(gl_FragCoord.xy + turnRad), hash(gl_FragCoord.yx + 7.0 * turnRad)) - 0.5) * pixelMm;
#endif
    float h = composedBlock(at, s, who, share);
    h = region == 0 && runCount > topRuns && underside(p) >= h - 1e-4 ? zLayers.w : h;
#else
    float h = region == 0 ? composedThrough(p, s, who) : composed(p, s, who);
#endif
#if LIFTED == 1
    if (region == 0 && h <= underside(p) + 1e-4) {
        discard;
    }
#endif
    // Pixels on an upright wall belong to the layer at their own height, not to the one at their place in plan.
    // Where a wall stands lower than a few pixels the place in plan is the better witness.
    float tall = (s - min(h, world.z)) * zFactor / max(length(fwidth(p)) * 0.7, 1e-6);
    bool wall = abs(meshNormal.z) < 0.42 && abs(v.z) < 0.97 && tall > 3.0;
    float z = wall ? min(world.z, s) : h;
#if COARSE == 1
    vec3 n = vec3(0.0, 0.0, 1.0);
#elif FINE == 1
    float reach = max(0.75 * pixelMm, 1.0 / runOrigin[0].z);
    int other;
    vec2 slope = vec2(composed(p + vec2(reach, 0.0), s, other), composed(p + vec2(0.0, reach), s, other)) - h;
    slope /= reach;
    vec3 n = normalize(vec3(-slope * zFactor, 1.0));
    // A thin dark line where copper ends: the edge is seen without colour.
    float away = abs(h - (s - zLayers.y)) / max(length(slope), 1e-4);
    edge = region == 0 ? 1.0 - smoothstep(0.5, 1.3, away / pixelMm) : 0.0;
#else
    vec3 n = cross(vec3(dFdx(p), dFdx(h) * zFactor), vec3(dFdy(p), dFdy(h) * zFactor));
    n = n / max(length(n), 1e-20);
    n = n.z < 0.0 ? -n : n;
#endif
    n = wall ? meshNormal : n;
    share = wall ? 1.0 : share;
    int layer = layerAt(z, s, wall || n.z < 0.75);
    vec2 grain = p;
#elif PART == 1
    float under = underside(p);
    float h = world.z;
    if (composed(p, s, who) <= under + 1e-4) {
        discard;
    }
    bool wall = false;
    float z = world.z;
    vec3 n = vec3(0.0, 0.0, -1.0);
    float inwards = under + zLayers.x;
    int layer = foilOn.y == 1 && inwards < zLayers.y ? (inwards < 0.0005 ? FOIL : FOIL_LEFT) : BARE;
    vec2 grain = p;
#else
    float h = world.z;
    bool wall = true;
    float z = world.z;
    vec3 n = meshNormal;
    int layer = layerAt(min(z, s - 0.001), s, true);
    vec2 grain = vec2(p.x + p.y, z);
#endif
#if COARSE == 1 && FINE == 0 && PART == 0
    // While something moves, one look for grain has to do.
    int above = layerAt(s, s, false);
    Stuff uncut = stuffOf(above, grain);
    float metal = layer <= FAR_FOIL ? 1.0 : 0.0;
    Stuff m = Stuff(mix(uncut.albedo, colourOf(layer), share), mix(uncut.metal, metal, share),
            mix(uncut.rough, metal > 0.5 ? 0.4 : 0.85, share), uncut.bend * (1.0 - share));
#else
    Stuff m = stuffOf(layer, grain);
#endif
#if COARSE == 1 && FINE == 1 && PART == 0
    Stuff uncut = stuffOf(layerAt(s, s, false), grain);
    m = Stuff(mix(uncut.albedo, m.albedo, share), mix(uncut.metal, m.metal, share), mix(uncut.rough, m.rough, share),
            mix(uncut.bend, m.bend, share));
#endif
    n = wall ? n : normalize(n + vec3(m.bend, 0.0));
    float occlusion = 1.0;
    float shadow = 1.0;
#if PART == 0 && FINE == 1 && COARSE == 0
    occlusion = occlusionAt(p, z, clamp(8.0 * pixelMm, 0.02, 1.2));
    shadow = shadowAt(p, z);
#elif PART == 0
    occlusion = 1.0 - 0.3 * share * clamp((s - z) * zFactor * 6.0, 0.0, 1.0);
#endif
    vec3 c = shownColour(lit(m.albedo, m.metal, m.rough, n, v, occlusion, shadow));
#if PAINTED == 1
    vec3 shown = painted(p, wall ? z : h, s, wall && who < 0 && paint != 4 ? 0 : who, m.albedo);
#if COARSE == 1 && FIELD == 0
    shown = mix(painted(p, s, s, -1, uncut.albedo), shown, share);
#endif
    c = shown * mix(0.82, 1.0, occlusion * shadow) * mix(0.86, 1.0, clamp(abs(n.z), 0.0, 1.0));
#endif
    // Foil left is hatched on the screen, so that it is found at any size: dark and pale stripes, told by lightness too.
    float stripe = mod(gl_FragCoord.x + gl_FragCoord.y, 8.0);
    vec3 hatch = stripe < 4.0 ? vec3(0.80, 0.05, 0.45) : vec3(1.0, 0.86, 0.94);
    c = layer == FOIL_LEFT && PAINTED == 0 ? mix(c, hatch, 0.85 * share) : c;
    c = chosenRun >= 0 && who == chosenRun ? mix(c, vec3(0.25, 0.75, 1.0), 0.35 * share) : c;
#if COMPARED == 1 && PART == 0
    c = region == 0 && !wall ? difference(p, foilOn.x == 1 && composed(p, s, who) > s - zLayers.y) : mix(c, vec3(0.5), 0.7);
#endif
#if HIGHLIGHT == 1 && PART == 0
    // Joined copper: blue with a net of pale dots.
    bool dot4 = mod(floor(gl_FragCoord.x), 6.0) < 2.0 && mod(floor(gl_FragCoord.y), 6.0) < 2.0;
    c = region == 0 && !wall && looked(highlightMap, highlightFrame, p) > -1e8
            ? mix(c, dot4 ? vec3(0.80, 0.95, 1.0) : vec3(0.05, 0.42, 0.92), 0.62) : c;
#endif
    c *= 1.0 - 0.5 * edge;
#if PART == 0
    if (through > 0.0 && region == 0 && foilOn.y == 1 && runCount > topRuns) {
        float inwards = underside(p) + zLayers.x;
        float dash = mod(gl_FragCoord.x - gl_FragCoord.y, 6.0);
        c = inwards >= zLayers.y ? mix(c, dash < 3.0 ? vec3(0.05, 0.12, 0.45) : vec3(0.70, 0.82, 1.0), through) : c;
    }
#endif
    colour = vec4(c, 1.0);
}
