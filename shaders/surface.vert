#version 330 core
//include compose.glsl
// PART 0: top of the blank and the spoil board round it; 1: underside; 2: upright sides.

layout(location = 0) in vec3 corner;      // x, y over the patch 0..1; z: 1 on the skirt that hides cracks
layout(location = 1) in vec4 patchFrame;  // x0, y0, size, region (sides: x0, y0, x1, y1)

uniform mat4 clipFromWorld;
uniform float zFactor;
uniform vec4 regions[6];                  // x0, y0, x1, y1; 0 the blank, 1..4 the ring round it, 5 all of it
uniform vec2 sideZ;                       // PART 2: Z of the lower edge; > 0: upper edge is the blank's composed top

out vec3 world;
flat out int region;

void main() {
    int who;
#if PART == 2
    vec2 p = mix(patchFrame.xy, patchFrame.zw, corner.x);
    float top = sideZ.y > 0.0 ? composed(p, foilTop(p), who) : zLayers.w;
    region = sideZ.y > 0.0 ? 1 : 2;
    world = vec3(p, mix(top, min(top, sideZ.x), corner.y));
#else
    int box = int(patchFrame.w);
    vec2 p = clamp(patchFrame.xy + corner.xy * patchFrame.z, regions[box].xy, regions[box].zw);
#if PART == 1
    float z = underside(p);
#else
    float z = (box == 0 ? composedThrough(p, foilTop(p), who) : composed(p, zLayers.w, who)) - corner.z * patchFrame.z * 0.06 / zFactor;
#endif
    world = vec3(p, z);
    region = box == 0 ? 0 : 2;
#endif
    gl_Position = clipFromWorld * vec4(world.xy, world.z * zFactor, 1.0);
}
