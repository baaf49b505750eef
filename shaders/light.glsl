// A small studio: one key light, a bright window above, a darker floor. Linear light, tone mapped at the end.

uniform vec3 eye;            // mm, Z exaggerated
uniform vec4 eyeDirection;   // towards the eye; w = 1 without perspective
uniform vec3 keyDirection;   // towards the light
uniform float pixelMm;        // size of a pixel at the point that is looked at
uniform vec3 windowDirection; // towards the brightest part of the room
uniform vec3 roomUp;         // the room's upward direction, also when the blank is turned over

vec3 surroundings(vec3 d) {
    float up = dot(d, roomUp) * 0.5 + 0.5;
    vec3 room = mix(vec3(0.17, 0.16, 0.155), vec3(0.50, 0.51, 0.54), up);
    float window = smoothstep(0.50, 1.0, dot(d, windowDirection));
    return room + window * vec3(0.75, 0.72, 0.68);
}

float fifth(float x) {
    float s = x * x;
    return s * s * x;
}

// Microfacet model of Walter et al. 2007 (GGX) with Schlick's Fresnel term, and a hemisphere for the rest of the room.
vec3 lit(vec3 albedo, float metal, float rough, vec3 n, vec3 v, float occlusion, float shadow) {
    vec3 l = keyDirection;
    vec3 h = normalize(l + v);
    float nl = max(dot(n, l), 0.0);
    float nv = max(dot(n, v), 0.05);
    float nh = max(dot(n, h), 0.0);
    float a2 = rough * rough * rough * rough;
    float d = nh * nh * (a2 - 1.0) + 1.0;
    float ggx = a2 / (3.14159 * d * d);
    float k = (rough + 1.0) * (rough + 1.0) / 8.0;
    float visible = 0.25 / ((nl * (1.0 - k) + k) * (nv * (1.0 - k) + k));
    vec3 f0 = mix(vec3(0.04), albedo, metal);
    vec3 f = f0 + (1.0 - f0) * fifth(1.0 - max(dot(v, h), 0.0));
    vec3 body = albedo * (1.0 - metal);
    vec3 direct = (body / 3.14159 + min(ggx * visible, 1.6) * f) * nl * 2.7 * shadow;
    vec3 soft = mix(surroundings(reflect(-v, n)), vec3(0.36, 0.36, 0.37), rough * rough);
    vec3 ambient = body * mix(vec3(0.22), vec3(0.52, 0.53, 0.55), dot(n, roomUp) * 0.5 + 0.5)
            + soft * (f0 + (1.0 - f0) * 0.22 * fifth(1.0 - nv) * (1.0 - rough));
    return direct + ambient * occlusion;
}

// Film-like shoulder (the rational fit (x(ax+b))/(x(cx+d)+e) that is common in real-time drawing), then gamma 2.
vec3 shownColour(vec3 c) {
    vec3 x = c * 0.62;
    x = x * (2.51 * x + 0.03) / (x * (2.43 * x + 0.59) + 0.14);
    return sqrt(clamp(x, 0.0, 1.0));
}
