// The board is composed here, for every vertex and every pixel: min(S, E_k + z0_k - e_k).
// Heights are mm, Z 0 the nominal foil top. Shared by surface.vert and surface.frag.
//
// Software drawing runs both arms of every branch, so what a picture does not need is left out by #if, and a run's
// height at a place is one page and one filtered texel: each tile carries the first column and row of its neighbours.

const int MAX_RUNS = 64;

uniform sampler2DArray heightAtlas;   // 16-bit heights, 1.0 = no cutter came here
uniform usampler2D pageTable;         // per run: tile -> slot, 0 where there is none
uniform sampler2D surfaceMap;         // S above its nominal plane
uniform vec4 surfaceFrame;            // x0, y0, 1/step x, 1/step y
uniform vec4 bow;                     // how far the middle lies low, 2/width, 2/height
uniform vec2 heightCode;              // z = x + texel * y
uniform vec2 slotSize;                // cells from slot to slot, 1 / cells along an atlas layer's side
uniform int topRuns;                  // runs 0 .. topRuns-1 cut this face
uniform int runCount;                 // the rest cut the far face
uniform vec4 runOrigin[MAX_RUNS];     // x0, y0, 1/cell, shift of Z (z0 now - z0 encoded - e)
uniform ivec4 runPage[MAX_RUNS];      // first row in the page table, tile columns, tile rows, log2 of tile cells
uniform vec4 runFrom[MAX_RUNS];       // x' = x*a + b, y' = y*c + d
uniform vec4 zLayers;                 // thickness, foil, tape, spoil board's top Z

float foilTopBowed(vec2 p, float low) {
    vec2 m = clamp(p * bow.yz - 1.0, -1.0, 1.0);
    float z = -low * (1.0 - m.x * m.x) * (1.0 - m.y * m.y);
#if FLAT == 0
    vec2 q = (p - surfaceFrame.xy) * surfaceFrame.zw;
    vec2 n = vec2(textureSize(surfaceMap, 0));
    z += textureLod(surfaceMap, (clamp(q, vec2(0.0), n - 1.0) + 0.5) / n, 0.0).r;
#endif
    return z;
}

float foilTop(vec2 p) {
    return foilTopBowed(p, bow.x);
}

// The encoded height of a run at q in its cells, linear between their middles; 1.0 where no cutter came.
float envelopeIn(vec2 q, ivec4 page) {
    vec2 tile = floor(q * (1.0 / float(1 << page.w)));
    ivec2 t = ivec2(tile);
    bool outside = any(lessThan(t, ivec2(0))) || t.x >= page.y || t.y >= page.z;
    t = clamp(t, ivec2(0), max(page.yz - 1, ivec2(0)));
    uint slot = texelFetch(pageTable, ivec2(t.x, page.x + t.y), 0).r;
    vec2 at = vec2(float(slot & 0xFFu), float((slot >> 8) & 0xFFu)) * slotSize.x;
    vec2 uv = (at + (q - tile * float(1 << page.w)) + 0.5) * slotSize.y;
    float v = textureLod(heightAtlas, vec3(uv, float((slot >> 16) & 0x7FFFu)), 0.0).r;
    return outside || slot == 0u ? 1.0 : v;
}

vec2 cellsOf(int k, vec2 p) {
    return (p * runFrom[k].xz + runFrom[k].yw - runOrigin[k].xy) * runOrigin[k].z - 0.5;
}

#if CLOSE == 1
// Upright walls jump within a cell. Where they do, the wall runs where the heights, smoothed by the cubic B-spline, lie
// half-way: an even curve instead of a staircase. Sloping walls keep the heights as they are, linear between cells.
float envelopeOf(int k, vec2 p, ivec4 page) {
    vec2 q = cellsOf(k, p);
    vec2 whole = floor(q);
    vec2 f = q - whole;
    vec2 f2 = f * f;
    vec2 f3 = f2 * f;
    vec2 w1 = (4.0 - 6.0 * f2 + 3.0 * f3) / 6.0;
    vec2 w3 = f3 / 6.0;
    vec2 g1 = (1.0 + 3.0 * f + 3.0 * f2 - 3.0 * f3) / 6.0 + w3;
    vec2 g0 = 1.0 - g1;
    vec2 a = whole - 1.0 + w1 / g0;
    vec2 b = whole + 1.0 + w3 / g1;
    float v = envelopeIn(q, page);
    vec4 taps = vec4(envelopeIn(a, page), envelopeIn(vec2(b.x, a.y), page), envelopeIn(vec2(a.x, b.y), page),
            envelopeIn(b, page));
    float low = min(min(min(taps.x, taps.y), min(taps.z, taps.w)), v);
    float high = max(max(max(taps.x, taps.y), max(taps.z, taps.w)), v);
    float mean = dot(taps, vec4(g0.x * g0.y, g1.x * g0.y, g0.x * g1.y, g1.x * g1.y));
    bool upright = (high - low) * heightCode.y * runOrigin[k].z > 12.0;
    float t = clamp((mean - 0.5 * (low + high)) / max(0.25 * (high - low), 1e-7) + 0.5, 0.0, 1.0);
    return upright ? mix(low, high, t) : v;
}
#else
float envelopeOf(int k, vec2 p, ivec4 page) {
    return envelopeIn(cellsOf(k, p), page);
}
#endif

float envelope(int k, vec2 p) {
    return envelopeOf(k, p, runPage[k]);
}

#if COMPARED == 1
uniform ivec4 allPage[MAX_RUNS];      // as runPage, of runs that are left out too

float envelopeAnyway(int k, vec2 p) {
    return envelopeOf(k, p, allPage[k]);
}
#endif

// Each run in turn. The program that is compiled for a board names its runs one by one (EACH_TOP and EACH_FAR): indices
// that the compiler knows cost software drawing far less than a loop.

void cutBy(int k, vec2 p, inout float h, inout int who) {
    float v = envelope(k, p);
    float z = heightCode.x + v * heightCode.y + runOrigin[k].w;
    bool lower = v < 0.99999 && z < h;
    h = lower ? z : h;
    who = lower ? k : who;
}

// Composed surface from the surface s before any cut; who is the run that made it, -1 for none.
float composed(vec2 p, float s, out int who) {
    float h = s;
    who = -1;
#define CUT(k) cutBy(k, p, h, who);
    EACH_TOP(CUT)
    return h;
}

#if FINE == 1
void nearBy(int k, vec2 p, inout float h) {
    ivec4 page = runPage[k];
    vec2 q = (p * runFrom[k].xz + runFrom[k].yw - runOrigin[k].xy) * runOrigin[k].z;
    ivec2 cell = ivec2(floor(q));
    ivec2 t = cell >> page.w;
    bool outside = any(lessThan(t, ivec2(0))) || t.x >= page.y || t.y >= page.z;
    t = clamp(t, ivec2(0), max(page.yz - 1, ivec2(0)));
    uint slot = texelFetch(pageTable, ivec2(t.x, page.x + t.y), 0).r;
    ivec2 at = ivec2(slot & 0xFFu, (slot >> 8) & 0xFFu) * int(slotSize.x) + (cell & ((1 << page.w) - 1));
    float v = texelFetch(heightAtlas, ivec3(at, int((slot >> 16) & 0x7FFFu)), 0).r;
    float z = heightCode.x + v * heightCode.y + runOrigin[k].w;
    h = !outside && slot != 0u && v < 0.99999 ? min(h, z) : h;
}

// The same from the nearest cells, unfiltered: quick, for shade alone.
float composedNear(vec2 p, float s) {
    float h = s;
#define NEAR_CUT(k) nearBy(k, p, h);
    EACH_TOP(NEAR_CUT)
    return h;
}
#endif

#if COARSE == 1
uniform sampler2DArray coarseAtlas;   // per block of 8 x 8 cells and its mip levels: lowest height, share below half of it
uniform int coarseLevel;              // the level whose blocks are about as large as a pixel
uniform vec2 coarseSize;              // blocks along a slot at that level; cells along a tile

void blockBy(int k, vec2 p, float s, inout float h, inout int who, inout float share) {
    ivec4 page = runPage[k];
    vec2 q = (p * runFrom[k].xz + runFrom[k].yw - runOrigin[k].xy) * (runOrigin[k].z / coarseSize.y);
    vec2 tile = floor(q);
    ivec2 t = ivec2(tile);
    bool outside = any(lessThan(t, ivec2(0))) || t.x >= page.y || t.y >= page.z;
    t = clamp(t, ivec2(0), max(page.yz - 1, ivec2(0)));
    uint slot = texelFetch(pageTable, ivec2(t.x, page.x + t.y), 0).r;
    vec2 at = vec2(float(slot & 0xFFu), float((slot >> 8) & 0xFFu)) * coarseSize.x + (q - tile) * coarseSize.x;
    vec2 v = texelFetch(coarseAtlas, ivec3(at, int((slot >> 16) & 0x7FFFu)), coarseLevel).rg;
    float z = heightCode.x + v.r * heightCode.y + runOrigin[k].w;
    bool lower = !outside && slot != 0u && v.r < 0.99999 && z < s - 0.0005;
    share = lower ? max(share, v.g) : share;
    who = lower && z < h ? k : who;
    h = lower ? min(h, z) : h;
}

// Lowest height of the block about p, and which share of the block was cut: thin grooves stay when they are thinner than
// a pixel, and a pixel that is half groove is half as dark.
float composedBlock(vec2 p, float s, out int who, out float share) {
    float h = s;
    who = -1;
    share = 0.0;
#define BLOCK_CUT(k) blockBy(k, p, s, h, who, share);
    EACH_TOP(BLOCK_CUT)
    return h;
}
#endif

#if COMPARED == 1
uniform float baseShift[MAX_RUNS];    // shift of Z under the base conditions
uniform vec4 baseLayers;              // foil, bow, 0, 0 under the base conditions
uniform int basePresent[MAX_RUNS];

void baseBy(int k, vec2 p, inout float h) {
    float v = envelopeAnyway(k, p);
    float z = heightCode.x + v * heightCode.y + baseShift[k];
    h = v < 0.99999 && basePresent[k] == 1 ? min(h, z) : h;
}

// Whether copper is left at p under the base conditions.
bool baseCopper(vec2 p) {
    float h = foilTopBowed(p, baseLayers.y);
    float least = h - baseLayers.x;
#define BASE_CUT(k) baseBy(k, p, h);
    EACH_TOP(BASE_CUT)
    return h > least;
}
#endif

void farBy(int k, vec2 p, inout float h) {
    float v = envelope(k, p);
    float z = -zLayers.x - (heightCode.x + v * heightCode.y + runOrigin[k].w);
    h = v < 0.99999 ? max(h, z) : h;
}

// Underside of the blank: its plane, raised where the far face was cut.
float underside(vec2 p) {
    float h = -zLayers.x;
#define FAR_CUT(k) farBy(k, p, h);
    EACH_FAR(FAR_CUT)
    return h;
}
