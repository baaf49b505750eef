#version 330 core
layout(location = 0) in vec3 place;
layout(location = 1) in vec3 normal;
layout(location = 2) in vec4 tint;      // rgb, pattern: 0 plain, 1 striped, 2 steel, 3 ghost

uniform mat4 clipFromWorld;
uniform float zFactor;

out vec3 world;
out vec3 facing;
flat out vec4 shade;

void main() {
    world = vec3(place.xy, place.z * zFactor);
    facing = normalize(vec3(normal.xy * zFactor, normal.z));
    shade = tint;
    gl_Position = clipFromWorld * vec4(world, 1.0);
}
