#version 330 core
in vec2 uv;
out vec4 colour;

uniform sampler2D frame;
uniform float weight;

void main() {
    colour = texture(frame, uv) * weight;
}
