#version 330 core
//include light.glsl

in vec3 world;
in vec3 facing;
flat in vec4 shade;
out vec4 colour;

void main() {
    vec3 v = eyeDirection.w > 0.5 ? eyeDirection.xyz : normalize(eye - world);
    vec3 n = normalize(facing);
    n = dot(n, v) < 0.0 ? -n : n;
    vec3 base = shade.rgb;
    if (shade.a > 0.5 && shade.a < 1.5) {
        base *= mod(world.x + world.y + world.z, 2.0) < 1.0 ? 1.0 : 0.55;
    }
    // What would hide the board is drawn as a screen of dots.
    if (shade.a > 2.5 && mod(gl_FragCoord.x, 3.0) + mod(gl_FragCoord.y, 3.0) > 1.1) {
        discard;
    }
    float rough = shade.a > 1.5 ? 0.3 : 0.6;
    colour = vec4(shownColour(lit(base, 0.0, rough, n, v, 1.0, 1.0)), 0.0);
}
