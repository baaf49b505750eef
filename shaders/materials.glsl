// What the board is made of: colour, metal, roughness and a bend of the normal, from place and layer alone.
// Two looks into one noise texture serve every material, each stretched as the material wants it; the texture's mip
// levels fade each grain out before it is finer than a pixel.

uniform sampler2D noiseMap;

const int FOIL = 0, FOIL_EDGE = 1, FOIL_LEFT = 2, FAR_FOIL = 3, BARE = 4, TAPE = 5, WOOD = 6;

struct Stuff {
    vec3 albedo;
    float metal;
    float rough;
    vec2 bend;
};

#if SUBSTRATE == 0
const vec3 BARE_COLOUR = vec3(0.205, 0.083, 0.030);   // FR-1: pressed paper and phenolic resin
#elif SUBSTRATE == 1
const vec3 BARE_COLOUR = vec3(0.420, 0.520, 0.130);   // FR-4: woven glass and epoxy
#elif SUBSTRATE == 2
const vec3 BARE_COLOUR = vec3(0.560, 0.450, 0.240);   // CEM-1
#else
const vec3 BARE_COLOUR = vec3(0.620, 0.620, 0.440);   // CEM-3
#endif

// The bare colour of a layer, without grain: for what is mixed in by a share of a pixel.
vec3 colourOf(int layer) {
    return layer <= FAR_FOIL ? vec3(0.88, 0.375, 0.235) : layer == BARE ? BARE_COLOUR
            : layer == TAPE ? vec3(0.25, 0.38, 0.56) : vec3(0.40, 0.325, 0.215);
}

Stuff stuffOf(int layer, vec2 p) {
    bool metal = layer <= FAR_FOIL;
    // Brushed foil: long streaks along X. Substrate and wood: fibres. Tape: ribs across.
    vec4 s = metal ? vec4(0.008, 0.55, 0.0012, 0.09)
            : layer == BARE ? vec4(0.09, 0.04, 0.022, 0.14)
            : layer == TAPE ? vec4(0.16, 0.16, 0.3, 0.3) : vec4(0.006, 0.045, 0.06, 0.13);
    float a = texture(noiseMap, p * s.xy).r - 0.5;
    float b = texture(noiseMap, p.yx * s.wz + 0.37).g - 0.5;
#if CLOSE == 1
    // Close up the grain has a finer grain of its own.
    vec2 fine = texture(noiseMap, (p + 0.43 * p.yx) * s.xy * 6.1 + 0.19).rg - 0.5;
    a = 0.65 * a + 0.6 * fine.x;
    b = 0.65 * b + 0.6 * fine.y;
#endif
    vec3 colour = colourOf(layer);
    vec2 depth = metal ? vec2(0.22, 0.20) : layer == BARE ? (SUBSTRATE == 0 ? vec2(0.75, 0.75) : vec2(0.32, 0.32)) : layer == TAPE ? vec2(0.3, 0.3)
            : vec2(0.5, 0.55);
    float tone = 1.0 + a * depth.x + b * depth.y;
    vec2 bend = metal ? vec2(0.0, 0.13 * a + 0.09 * b) : vec2(a, b) * 0.18;
#if SUBSTRATE == 1 || SUBSTRATE == 3
    // Plain weave, 0.5 mm a thread: warp over weft in a chequer, until a thread is finer than the pixels.
    vec2 q = p * 2.0;
    vec2 cell = floor(q);
    vec2 f = q - cell - 0.5;
    bool over = mod(cell.x + cell.y, 2.0) > 0.5;
    float across = over ? f.x : f.y;
    float show = clamp(0.9 - 1.1 * length(fwidth(q)), 0.0, 1.0);
    float weave = mix(1.0, 0.66 + 0.5 * sqrt(max(0.0, 1.0 - 4.0 * across * across)) + (over ? 0.07 : -0.07), show);
    tone *= layer == BARE ? weave : 1.0;
    bend += layer == BARE ? (over ? vec2(f.x, 0.0) : vec2(0.0, f.y)) * 0.3 * show : vec2(0.0);
#endif
    return Stuff(colour * tone, metal ? 1.0 : 0.0, metal ? 0.40 + 0.10 * b : layer == TAPE ? 0.4 : 0.85, bend);
}

// While something moves: one look at one whole mip level, and a pixel's cut share mixed in at once.
Stuff quickStuff(int layer, int above, float share, vec2 p) {
    vec3 colour = mix(colourOf(above), colourOf(layer), share);
    float metal = mix(above <= FAR_FOIL ? 1.0 : 0.0, layer <= FAR_FOIL ? 1.0 : 0.0, share);
    vec2 s = layer == WOOD ? vec2(0.006, 0.06) : mix(vec2(0.07, 0.10), vec2(0.008, 0.55), metal);
    float level = max(floor(log2(pixelMm * 154.0 * (s.x + s.y))), 0.0);
    float a = textureLod(noiseMap, p * s, level).r - 0.5;
    float tone = 1.0 + a * mix(0.7, 0.3, metal);
    vec2 bend = vec2(0.15 - 0.15 * metal, 0.17) * a;
    return Stuff(colour * tone, metal, mix(0.85, 0.4, metal), bend);
}
