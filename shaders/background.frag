#version 330 core
in vec2 uv;
out vec4 colour;

uniform vec3 upper;
uniform vec3 lower;

void main() {
    colour = vec4(mix(lower, upper, uv.y), 1.0);
}
