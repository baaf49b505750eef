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

// The encoded height of a run at p, linear between cell centres; 1.0 where no cutter came.
float envelopeIn(int k, vec2 p, ivec4 page) {
    vec2 q = (p * runFrom[k].xz + runFrom[k].yw - runOrigin[k].xy) * runOrigin[k].z - 0.5;
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

float envelope(int k, vec2 p) {
    return envelopeIn(k, p, runPage[k]);
}

#if COMPARED == 1
uniform ivec4 allPage[MAX_RUNS];      // as runPage, of runs that are left out too

float envelopeAnyway(int k, vec2 p) {
    return envelopeIn(k, p, allPage[k]);
}
#endif

// Composed surface from the surface s before any cut; who is the run that made it, -1 for none.
float composed(vec2 p, float s, out int who) {
    float h = s;
    who = -1;
#if PLAIN == 0
    for (int k = 0; k < topRuns; k++) {
        float v = envelope(k, p);
        float z = heightCode.x + v * heightCode.y + runOrigin[k].w;
        bool lower = v < 0.99999 && z < h;
        h = lower ? z : h;
        who = lower ? k : who;
    }
#endif
    return h;
}

#if FINE == 1
// The same from the nearest cells, unfiltered: quick, for shade alone.
float composedNear(vec2 p, float s) {
    float h = s;
    for (int k = 0; k < topRuns; k++) {
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
    return h;
}
#endif

#if COARSE == 1
uniform sampler2DArray coarseAtlas;   // per block of 8 x 8 cells and its mip levels: lowest height, share below half of it
uniform float coarseLevel;            // the level whose blocks are about as large as a pixel
uniform vec2 coarseSize;              // blocks along a slot at level 0; cells along a tile

// Lowest height of the block about p, and which share of the block was cut: thin grooves stay when they are thinner than
// a pixel, and a pixel that is half groove is half as dark.
float composedBlock(vec2 p, float s, out int who, out float share) {
    float h = s;
    who = -1;
    share = 0.0;
    int level = int(coarseLevel);
    int side = int(coarseSize.x) >> level;
    for (int k = 0; k < topRuns; k++) {
        ivec4 page = runPage[k];
        vec2 q = (p * runFrom[k].xz + runFrom[k].yw - runOrigin[k].xy) * runOrigin[k].z / coarseSize.y;
        ivec2 t = ivec2(floor(q));
        bool outside = any(lessThan(t, ivec2(0))) || t.x >= page.y || t.y >= page.z;
        t = clamp(t, ivec2(0), max(page.yz - 1, ivec2(0)));
        uint slot = texelFetch(pageTable, ivec2(t.x, page.x + t.y), 0).r;
        ivec2 at = ivec2(slot & 0xFFu, (slot >> 8) & 0xFFu) * side
                + clamp(ivec2((q - vec2(t)) * float(side)), ivec2(0), ivec2(side - 1));
        vec2 v = texelFetch(coarseAtlas, ivec3(at, int((slot >> 16) & 0x7FFFu)), level).rg;
        float z = heightCode.x + v.r * heightCode.y + runOrigin[k].w;
        bool lower = !outside && slot != 0u && v.r < 0.99999 && z < s - 0.0005;
        share = lower ? max(share, v.g) : share;
        who = lower && z < h ? k : who;
        h = lower ? min(h, z) : h;
    }
    return h;
}
#endif

#if COMPARED == 1
uniform float baseShift[MAX_RUNS];    // shift of Z under the base conditions
uniform vec4 baseLayers;              // foil, bow, 0, 0 under the base conditions
uniform int basePresent[MAX_RUNS];

// Whether copper is left at p under the base conditions.
bool baseCopper(vec2 p) {
    float h = foilTopBowed(p, baseLayers.y);
    float least = h - baseLayers.x;
#if PLAIN == 0
    for (int k = 0; k < topRuns; k++) {
        float v = envelopeAnyway(k, p);
        float z = heightCode.x + v * heightCode.y + baseShift[k];
        h = v < 0.99999 && basePresent[k] == 1 ? min(h, z) : h;
    }
#endif
    return h > least;
}
#endif

// Underside of the blank: its plane, raised where the far face was cut.
float underside(vec2 p) {
    float bottom = -zLayers.x;
    float h = bottom;
#if PLAIN == 0
    for (int k = topRuns; k < runCount; k++) {
        float v = envelope(k, p);
        float z = bottom - (heightCode.x + v * heightCode.y + runOrigin[k].w);
        h = v < 0.99999 ? max(h, z) : h;
    }
#endif
    return h;
}

// As composed, and open down to the spoil board where cuts from the two faces meet.
float composedThrough(vec2 p, float s, out int who) {
    float h = composed(p, s, who);
#if PLAIN == 0
    if (runCount > topRuns && underside(p) >= h - 1e-4) {
        h = zLayers.w;
    }
#endif
    return h;
}
