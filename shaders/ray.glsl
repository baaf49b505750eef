// The board is met ray by ray: no mesh, so walls stand upright and holes are round at every size. The blank and the spoil
// board are one height field; off the spoil board the blank is closed from below by its underside.

uniform vec3 rayFrom;        // picture's middle at the point that is looked at, mm, Z exaggerated
uniform vec3 rayRight;       // from the middle to the right edge
uniform vec3 rayUpward;      // from the middle to the upper edge
uniform vec2 rayShift;       // part of a pixel, in -1..1 of the picture
uniform float zFactor;

uniform float topMm;         // highest foil top
uniform vec4 spoilBox;       // how far it reaches beyond the blank, its underside's Z, 0, 0

#if FINE == 1
const int STEPS = 90;
const float STRIDE = 0.13, LEAST = 0.7, NEAR = 0.4;
const int HALVINGS = 6;
#else
const int STEPS = 40;
const float STRIDE = 0.16, LEAST = 0.8, NEAR = 1.2;
const int HALVINGS = 5;
#endif

struct Hit {
    bool met;
    vec3 p;          // Z not exaggerated
    float px;        // size of a pixel there, mm
    float s;         // surface before any cut
    float h;         // composed height there
    float under;     // underside there (lifted)
    int who;
    float share;     // share of the pixel that is cut, where it is looked up by blocks
    bool side;       // the blank's or the spoil board's own upright side
    bool wall;       // met on its way down, not on a floor
    bool below;      // the underside
    vec3 face;       // normal of a side
};

bool onBlank(vec2 p) {
    return all(lessThanEqual(abs(p * bow.yz - 1.0), vec2(1.00001)));
}

// Entry and exit of a ray through a box, and the axis of the entry.
vec2 through(vec3 o, vec3 inverse, vec3 low, vec3 high, out int axis) {
    vec3 a = (low - o) * inverse;
    vec3 b = (high - o) * inverse;
    vec3 n = min(a, b);
    vec3 f = max(a, b);
    axis = n.z >= n.x && n.z >= n.y ? 2 : n.x >= n.y ? 0 : 1;
    return vec2(max(max(n.x, n.y), n.z), min(min(f.x, f.y), f.z));
}

// The solid at p: how far the point lies outside of it (at or below 0: inside).
float outsideAt(vec3 p, inout Hit hit) {
    bool on = onBlank(p.xy);
    hit.s = on ? foilTop(p.xy) : zLayers.w;
#if COARSE == 1
    float share;
    hit.h = composedBlock(p.xy, hit.s, hit.who, share);
    hit.share = hit.share < 0.0 ? share : hit.share;
#else
    hit.h = composed(p.xy, hit.s, hit.who);
#endif
    float over = p.z - hit.h;
#if FARCUT == 1 || LIFTED == 1
    hit.under = underside(p.xy);
    bool open = hit.under >= hit.h - 1e-4;
#if LIFTED == 1
    over = open ? 0.4 : max(over, hit.under - p.z);
#else
    hit.h = on && open ? min(hit.h, zLayers.w) : hit.h;
    over = p.z - hit.h;
#endif
#endif
    return over;
}

Hit castRay(vec2 uv, out vec3 towards) {
    vec2 at = uv * 2.0 - 1.0 - rayShift;
    vec3 o = rayFrom + at.x * rayRight + at.y * rayUpward;
    vec3 d = eyeDirection.w > 0.5 ? -eyeDirection.xyz : normalize(o - eye);
    o = eyeDirection.w > 0.5 ? o : eye;
    towards = -d;
    o.z /= zFactor;
    d.z /= zFactor;
    d = mix(d, vec3(1e-7), lessThan(abs(d), vec3(1e-7)));
    float far = eyeDirection.w > 0.5 ? 0.0 : pixelMm / length(rayFrom - eye);
    vec3 inverse = 1.0 / d;
    vec2 size = 2.0 / bow.yz;
    Hit hit = Hit(false, vec3(0.0), pixelMm, 0.0, 0.0, -zLayers.x, -1, -1.0, false, false, false, vec3(0.0, 0.0, 1.0));

    int axis, axisBlank, axisSpoil = 2;
#if LIFTED == 1
    vec2 blank = through(o, inverse, vec3(0.0, 0.0, -zLayers.x), vec3(size, topMm), axisBlank);
    vec2 spoil = vec2(1e9, -1e9);
#else
    vec2 blank = through(o, inverse, vec3(0.0, 0.0, zLayers.w), vec3(size, topMm), axisBlank);
    vec2 spoil = through(o, inverse, vec3(-spoilBox.xx, spoilBox.y), vec3(size + spoilBox.xx, zLayers.w), axisSpoil);
#endif
    if (eyeDirection.w < 0.5) {
        blank.x = max(blank.x, 0.0);
        spoil.x = max(spoil.x, 0.0);
    }
    bool first = blank.x < blank.y;
    float lateral = length(d.xy);
    float t = first ? blank.x : spoil.x;
    float end = first ? blank.y : spoil.y;
    axis = first ? axisBlank : axisSpoil;
#if FLAT == 0
    // Down to the foil top, which lies below its highest point.
    for (int i = 0; i < 4; i++) {
        vec3 p = o + t * d;
        bool go = first && d.z < 0.0 && axis == 2;
        t = go ? min(t + max(p.z - foilTop(p.xy), 0.0) / -d.z, end - 1e-5) : t;
    }
#endif
    float before = t;
    float inside = t;
    bool entered = true;
    bool crossed = false;
    bool alive = t < end;
    float over = 0.0;
    int halved = 0;
    // One look a turn, and the turn's end asks whether another one is needed: software drawing leaves there.
    for (int i = 0; i < STEPS; i++) {
        vec3 p = o + t * d;
        // Where a ray just entered, rounding must not put the point outside.
        p.xy = first ? clamp(p.xy, vec2(0.0), size) : p.xy;
        over = outsideAt(p, hit);
        hit.px = far > 0.0 ? far * t : pixelMm;
        float drop = max(over, 0.0) / abs(d.z);
        bool level = drop * lateral < NEAR * hit.px && (LIFTED == 1 ? hit.under < hit.h - 1e-4 : d.z < 0.0);
        if (crossed) {
            // Between the last point outside and the first one inside.
            before = over > 0.0 ? t : before;
            inside = over > 0.0 ? inside : t;
            alive = halved < HALVINGS;
            halved++;
            t = halved < HALVINGS ? (before + inside) * 0.5 : inside;
        } else if (over <= 1e-4 || level) {
            hit.met = alive;
            hit.side = entered && axis != 2 && over < -1e-4;
            crossed = !entered && over < -0.3 * hit.px / zFactor;
            inside = t;
            t = crossed ? (before + t) * 0.5 : t + drop;
            alive = crossed;
        } else {
            before = t;
            // Never so far sideways that a wall between two cuts is jumped.
            float least = LEAST * hit.px;
            t += max(least, min(STRIDE * drop * lateral, max(3.0 * least, 0.07))) / max(lateral, 0.2);
            entered = false;
            if (t >= end) {
                alive = first && spoil.x < spoil.y;
                t = max(end, spoil.x);
                before = t;
                entered = spoil.x >= end - 1e-4;
                axis = axisSpoil;
                end = first ? spoil.y : end;
                first = false;
                alive = alive && t < end;
            }
        }
        if (!alive) {
            break;
        }
    }
    hit.p = o + t * d;
    hit.wall = crossed && over < -0.35 * hit.px / zFactor;
#if LIFTED == 1
    hit.below = !hit.side && d.z > 0.0 && abs(hit.p.z - hit.under) < abs(hit.p.z - hit.h);
#endif
    if (hit.side) {
        hit.face = axis == 0 ? vec3(-sign(d.x), 0.0, 0.0) : vec3(0.0, -sign(d.y), 0.0);
    }
    hit.share = max(hit.share, 0.0);
    return hit;
}
