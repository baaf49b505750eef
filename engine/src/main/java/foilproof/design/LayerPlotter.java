package foilproof.design;

import foilproof.source.InputException;
import foilproof.source.InputLimits;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.List;
import java.util.Map;
import org.jspecify.annotations.Nullable;

/** Graphics state of a layer image, and the operations that make its objects. */
final class LayerPlotter {
    /** Beyond this no board is meant, mm. */
    private static final double ABSURD_MM = 2000;

    private final TextPlaces places;
    private final InputLimits limits;
    private LayerImage.Builder target = new LayerImage.Builder();
    private final List<LayerImage.Builder> outer = new ArrayList<>();
    private final List<Integer> outerAperture = new ArrayList<>();
    private final List<Map<String, List<String>>> outerAttributes = new ArrayList<>();
    final Map<Integer, Aperture> apertures = new HashMap<>();
    private @Nullable Aperture current;

    // modal state
    int interpolation = 1;
    int quadrants;
    boolean dark = true;
    boolean mirrorX;
    boolean mirrorY;
    double turnDeg;
    double scale = 1;
    private boolean known = true;
    private double x;
    private double y;

    // region
    private boolean region;
    private int regionAt;
    private final List<List<PathEdge>> contours = new ArrayList<>();
    private @Nullable List<PathEdge> contour;

    // step and repeat
    private int repeatFrom = -1;
    private int repeatX;
    private int repeatY;
    private double stepX;
    private double stepY;

    // attributes
    final Map<String, List<String>> apertureAttributes = new HashMap<>();
    final Map<String, List<String>> objectAttributes = new HashMap<>();
    private final Map<Aperture, ObjectAttributes> composed = new IdentityHashMap<>();
    private @Nullable ObjectAttributes composedPlain;
    private final Map<PlaneMap, Map<Figure, Figure>> turned = new HashMap<>();
    private final Map<Double, Figure> dots = new HashMap<>();

    LayerPlotter(TextPlaces places, InputLimits limits) {
        this.places = places;
        this.limits = limits;
    }

    LayerImage.Builder target() {
        return target;
    }

    boolean inRegion() {
        return region;
    }

    boolean inBlock() {
        return !outer.isEmpty();
    }

    boolean inRepeat() {
        return repeatFrom >= 0;
    }

    void attributesChanged() {
        composed.clear();
        composedPlain = null;
    }

    void select(int number, int at, int end) throws InputException {
        Aperture aperture = apertures.get(number);
        if (aperture == null) {
            throw places.error(
                    at,
                    end,
                    "layer-aperture-undefined",
                    "Aperture D" + number + " is used but was not defined before.",
                    "Define it with ADD" + number + ".");
        }
        current = aperture;
    }

    double x() {
        return x;
    }

    double y() {
        return y;
    }

    private PlaneMap apertureMap() {
        PlaneMap map = new PlaneMap(mirrorX ? -1 : 1, 0, 0, mirrorY ? -1 : 1, 0, 0);
        return map.then(PlaneMap.turnDeg(turnDeg)).then(PlaneMap.scale(scale));
    }

    private ObjectAttributes attributes(@Nullable Aperture aperture) {
        if (aperture == null) {
            if (composedPlain == null) {
                composedPlain = compose(apertureAttributes);
            }
            return composedPlain;
        }
        return composed.computeIfAbsent(aperture, a -> compose(a.attributes()));
    }

    private ObjectAttributes compose(Map<String, List<String>> ofAperture) {
        if (ofAperture.isEmpty() && objectAttributes.isEmpty()) {
            return ObjectAttributes.NONE;
        }
        Map<String, String> others = new HashMap<>();
        ofAperture.forEach((k, v) -> others.put(k, String.join(",", v)));
        objectAttributes.forEach((k, v) -> others.put(k, String.join(",", v)));
        others.remove("N");
        others.remove("P");
        others.remove("AperFunction");
        List<String> pin = objectAttributes.getOrDefault("P", List.of());
        List<String> part = objectAttributes.getOrDefault("C", List.of());
        List<String> function = ofAperture.getOrDefault("AperFunction", List.of());
        List<String> nets = objectAttributes.get("N");
        return new ObjectAttributes(
                nets == null ? List.of() : nets.isEmpty() ? List.of("") : nets,
                pin.isEmpty() ? part.isEmpty() ? null : part.get(0) : pin.get(0),
                pin.size() < 2 ? null : pin.get(1),
                function.isEmpty() ? null : function.get(0),
                others);
    }

    private void put(Figure figure, double px, double py, byte flags, ObjectAttributes attributes, int at)
            throws InputException {
        if (target.size() >= limits.flashes()) {
            throw places.error(
                    at,
                    at + 1,
                    "over-limit",
                    "The layer image has more than " + limits.flashes() + " graphic objects.",
                    "That is the limit of this reader.");
        }
        Bounds box = figure.box;
        if (Math.abs(px) + Math.max(Math.abs(box.minXMm()), Math.abs(box.maxXMm())) > ABSURD_MM
                || Math.abs(py) + Math.max(Math.abs(box.minYMm()), Math.abs(box.maxYMm())) > ABSURD_MM) {
            if (!box.isEmpty()) {
                places.warnOnce(
                        "absurd",
                        at,
                        at + 1,
                        "layer-coordinate-absurd",
                        "An object lies more than " + (int) ABSURD_MM + " mm from the zero.",
                        "Check the units and the coordinate format of the file.");
            }
        }
        target.add(figure, px, py, flags, attributes, places.line(at));
    }

    // ---- operations ----

    /** D02. */
    void move(double px, double py, int at) {
        closeContour(at);
        x = px;
        y = py;
        known = true;
    }

    /** D03. */
    void flash(double px, double py, int at, int end) throws InputException {
        if (region) {
            throw places.error(
                    at,
                    end,
                    "layer-region",
                    "A flash (D03) inside a region.",
                    "Between G36 and G37 only D01, D02 and G codes are allowed.");
        }
        x = px;
        y = py;
        known = true;
        Aperture aperture = needAperture(at, end);
        PlaneMap map = apertureMap();
        if (aperture.block() != null) {
            flashBlock(aperture, aperture.block(), map, at);
            return;
        }
        Figure figure = mapped(aperture.figure(), map);
        put(
                figure,
                x,
                y,
                LayerImage.Builder.flagsOf(dark, GraphicObject.Kind.FLASH, aperture.shape()),
                attributes(aperture),
                at);
    }

    private Aperture needAperture(int at, int end) throws InputException {
        Aperture aperture = current;
        if (aperture == null) {
            throw places.error(
                    at,
                    end,
                    "layer-aperture-undefined",
                    "No aperture has been chosen.",
                    "A D code of 10 or above chooses one.");
        }
        return aperture;
    }

    private Figure mapped(Figure figure, PlaneMap map) {
        if (map.equals(PlaneMap.IDENTITY)) {
            return figure;
        }
        return turned.computeIfAbsent(map, m -> new IdentityHashMap<>()).computeIfAbsent(figure, f -> f.mapped(map));
    }

    private void flashBlock(Aperture aperture, LayerImage.Builder block, PlaneMap map, int at) throws InputException {
        ObjectAttributes own = attributes(aperture);
        for (int i = 0; i < block.size(); i++) {
            byte flags = block.flag(i);
            if (!dark) {
                flags ^= LayerImage.Builder.DARK;
            }
            ObjectAttributes inner = block.attribute(i);
            put(
                    mapped(block.figure(i), map),
                    x + map.xMm(block.x(i), block.y(i)),
                    y + map.yMm(block.x(i), block.y(i)),
                    flags,
                    inner.within(own),
                    at);
        }
    }

    /** D01: from the current point. */
    void draw(double px, double py, boolean hasOffset, double i, double j, int at, int end) throws InputException {
        if (!known) {
            throw places.error(
                    at, end, "layer-no-point", "The current point is not known here.", "Begin with a move (D02).");
        }
        PathEdge edge = interpolation == 1 ? PathEdge.line(x, y, px, py) : arc(px, py, hasOffset, i, j, at, end);
        x = px;
        y = py;
        if (region) {
            if (contour == null) {
                contour = new ArrayList<>();
            }
            if (edge.isArc() || edge.x0Mm() != edge.x1Mm() || edge.y0Mm() != edge.y1Mm()) {
                contour.add(edge);
            }
            return;
        }
        Aperture aperture = needAperture(at, end);
        if (aperture.penRadiusMm() < 0) {
            drawWithCorners(aperture, edge, at, end);
            return;
        }
        double pen = aperture.penRadiusMm() * scale;
        if (edge.isArc()) {
            put(
                    ArcFigure.of(edge.mapped(PlaneMap.shift(-edge.x0Mm(), -edge.y0Mm())), pen),
                    edge.x0Mm(),
                    edge.y0Mm(),
                    LayerImage.Builder.flagsOf(dark, GraphicObject.Kind.ARC, aperture.shape()),
                    attributes(aperture),
                    at);
        } else {
            double ex = edge.x1Mm() - edge.x0Mm();
            double ey = edge.y1Mm() - edge.y0Mm();
            Figure figure = ex == 0 && ey == 0
                    ? dots.computeIfAbsent(pen, p -> new CapsuleFigure(0, 0, p))
                    : new CapsuleFigure(ex, ey, pen);
            put(
                    figure,
                    edge.x0Mm(),
                    edge.y0Mm(),
                    LayerImage.Builder.flagsOf(dark, GraphicObject.Kind.DRAW, aperture.shape()),
                    attributes(aperture),
                    at);
        }
    }

    private void drawWithCorners(Aperture aperture, PathEdge edge, int at, int end) throws InputException {
        double[] corners = aperture.corners();
        if (corners == null || edge.isArc()) {
            throw places.error(
                    at,
                    end,
                    "layer-draw-aperture",
                    "A stroke is drawn with an aperture that is no solid circle; its shape is not defined.",
                    "Strokes need a C aperture; older files may draw straight strokes with R or P.");
        }
        places.warnOnce(
                "draw-corners",
                at,
                end,
                "layer-deprecated",
                "Strokes drawn with R or P apertures are deprecated; they are read as the area swept.",
                null);
        PlaneMap map = apertureMap();
        int n = corners.length / 2;
        double[] points = new double[4 * n];
        for (int k = 0; k < n; k++) {
            double cx = map.xMm(corners[2 * k], corners[2 * k + 1]);
            double cy = map.yMm(corners[2 * k], corners[2 * k + 1]);
            points[2 * k] = cx;
            points[2 * k + 1] = cy;
            points[2 * (n + k)] = cx + edge.x1Mm() - edge.x0Mm();
            points[2 * (n + k) + 1] = cy + edge.y1Mm() - edge.y0Mm();
        }
        put(
                Figures.polygon(ConvexHull.of(points)),
                edge.x0Mm(),
                edge.y0Mm(),
                LayerImage.Builder.flagsOf(dark, GraphicObject.Kind.DRAW, aperture.shape()),
                attributes(aperture),
                at);
    }

    private PathEdge arc(double px, double py, boolean hasOffset, double i, double j, int at, int end)
            throws InputException {
        if (quadrants == 0) {
            places.warnOnce(
                    "quadrant",
                    at,
                    end,
                    "layer-arc-mode",
                    "An arc comes before G75; it is read as G75 (offsets with sign, any angle).",
                    "Put G75 before the first arc.");
        }
        boolean closed = px == x && py == y;
        boolean single = quadrants == 74;
        if (!hasOffset || i == 0 && j == 0 || single && closed) {
            if (!(single && closed)) {
                places.warn(
                        at,
                        end,
                        "layer-arc-suspect",
                        closed
                                ? "An arc of radius 0; it is read as a dot."
                                : "An arc without a centre (radius 0); it is read as a straight line.",
                        null);
            }
            return PathEdge.line(x, y, px, py);
        }
        boolean ccw = interpolation == 3;
        double cx = x + i;
        double cy = y + j;
        if (single) {
            double[] centre = singleQuadrantCentre(px, py, Math.abs(i), Math.abs(j), ccw);
            if (centre == null) {
                places.warn(
                        at,
                        end,
                        "layer-arc-suspect",
                        "No centre gives an arc of at most 90 degrees (G74); it is read as a straight line.",
                        null);
                return PathEdge.line(x, y, px, py);
            }
            cx = centre[0];
            cy = centre[1];
        }
        double r0 = StrictMath.hypot(x - cx, y - cy);
        double r1 = StrictMath.hypot(px - cx, py - cy);
        if (Math.abs(r0 - r1) > Math.max(0.01, 0.002 * Math.max(r0, r1))) {
            places.warn(
                    at,
                    end,
                    "layer-arc-suspect",
                    String.format(
                            java.util.Locale.ROOT,
                            "The radius of this arc is %.4f mm at its start and %.4f mm at its end; the mean is used.",
                            r0,
                            r1),
                    null);
        }
        return new PathEdge(
                x, y, px, py, cx, cy, closed ? (ccw ? 1 : -1) * 2 * StrictMath.PI : turn(cx, cy, px, py, ccw));
    }

    private double turn(double cx, double cy, double px, double py, boolean ccw) {
        double a0 = StrictMath.atan2(y - cy, x - cx);
        double a1 = StrictMath.atan2(py - cy, px - cx);
        double full = 2 * StrictMath.PI;
        double t = ccw ? a1 - a0 : a0 - a1;
        t -= full * Math.floor(t / full);
        return ccw ? t : -t;
    }

    private double @Nullable [] singleQuadrantCentre(double px, double py, double i, double j, boolean ccw) {
        double[] best = null;
        double least = Double.POSITIVE_INFINITY;
        for (int k = 0; k < 4; k++) {
            double cx = x + ((k & 1) == 0 ? i : -i);
            double cy = y + ((k & 2) == 0 ? j : -j);
            double t = Math.abs(turn(cx, cy, px, py, ccw));
            double off = Math.abs(StrictMath.hypot(x - cx, y - cy) - StrictMath.hypot(px - cx, py - cy));
            if (t <= StrictMath.PI / 2 + 0.01 && off < least) {
                least = off;
                best = new double[] {cx, cy};
            }
        }
        return best;
    }

    // ---- regions ----

    void beginRegion(int at) throws InputException {
        if (region) {
            throw places.error(at, at + 3, "layer-region", "A region (G36) begins inside a region.", null);
        }
        region = true;
        regionAt = at;
        contours.clear();
        contour = null;
    }

    private void closeContour(int at) {
        List<PathEdge> open = contour;
        contour = null;
        if (open == null || open.isEmpty()) {
            return;
        }
        PathEdge first = open.get(0);
        PathEdge last = open.get(open.size() - 1);
        if (first.x0Mm() != last.x1Mm() || first.y0Mm() != last.y1Mm()) {
            places.warn(
                    at,
                    at + 1,
                    "layer-contour-open",
                    "A contour of a region does not end where it begins; it is closed by a straight line.",
                    null);
            open.add(PathEdge.line(last.x1Mm(), last.y1Mm(), first.x0Mm(), first.y0Mm()));
        }
        contours.add(open);
    }

    void endRegion(int at) throws InputException {
        if (!region) {
            throw places.error(at, at + 3, "layer-region", "A region ends (G37) that did not begin (G36).", null);
        }
        closeContour(at);
        region = false;
        known = false;
        if (contours.isEmpty()) {
            places.warn(regionAt, regionAt + 3, "layer-region-empty", "A region without a contour.", null);
            return;
        }
        double area = 0;
        Bounds seen = Bounds.NONE;
        boolean apart = true;
        boolean once = true;
        for (List<PathEdge> c : contours) {
            PathFigure one = new PathFigure(List.of(c), false);
            once &= one.windsOnce();
            area += Math.abs(PathFigure.twiceAreaMm2(c)) / 2;
            apart &= seen.isEmpty()
                    || one.box.minXMm() > seen.maxXMm()
                    || one.box.maxXMm() < seen.minXMm()
                    || one.box.minYMm() > seen.maxYMm()
                    || one.box.maxYMm() < seen.minYMm();
            seen = seen.with(one.box);
        }
        if (!once) {
            places.warn(
                    regionAt,
                    regionAt + 3,
                    "layer-region-crossing",
                    "A contour of this region crosses itself; such a region has no defined area.",
                    "Everything that the contour goes round is taken as inside.");
        }
        List<List<PathEdge>> own = new ArrayList<>();
        for (List<PathEdge> c : contours) {
            own.add(List.copyOf(c));
        }
        PathFigure figure = new PathFigure(own, false, once && apart ? area : Double.NaN);
        put(
                figure,
                0,
                0,
                LayerImage.Builder.flagsOf(dark, GraphicObject.Kind.REGION, Pad.Shape.MACRO),
                attributes(null),
                regionAt);
    }

    // ---- blocks and step and repeat ----

    void beginBlock(int aperture, int at) throws InputException {
        if (inRepeat() || region) {
            throw places.error(
                    at, at + 2, "layer-block", "A block aperture begins inside a region or a step and repeat.", null);
        }
        outer.add(target);
        outerAperture.add(aperture);
        outerAttributes.add(new HashMap<>(apertureAttributes));
        target = new LayerImage.Builder();
        known = false;
    }

    void endBlock(int at) throws InputException {
        if (outer.isEmpty()) {
            throw places.error(at, at + 2, "layer-block", "A block aperture ends that did not begin.", null);
        }
        int last = outer.size() - 1;
        LayerImage.Builder block = target;
        target = outer.remove(last);
        int number = outerAperture.remove(last);
        define(
                number,
                new Aperture(
                        Pad.Shape.MACRO,
                        new CompoundFigure(List.of(), new boolean[0]),
                        -1,
                        null,
                        block,
                        outerAttributes.remove(last)),
                at,
                at + 2);
        known = false;
    }

    void define(int number, Aperture aperture, int at, int end) {
        if (apertures.put(number, aperture) != null) {
            places.warn(
                    at,
                    end,
                    "layer-aperture-redefined",
                    "Aperture D" + number + " is defined a second time; from here on the second one is used.",
                    "An aperture is never redefined.");
        }
    }

    void beginRepeat(int nx, int ny, double dx, double dy, int at) throws InputException {
        if (region) {
            throw places.error(at, at + 2, "layer-repeat", "A step and repeat begins inside a region.", null);
        }
        if (inRepeat()) {
            places.warn(
                    at, at + 2, "layer-repeat", "A step and repeat begins inside another; the first ends here.", null);
            endRepeat(at);
        }
        repeatFrom = target.size();
        repeatX = nx;
        repeatY = ny;
        stepX = dx;
        stepY = dy;
        known = false;
    }

    void endRepeat(int at) throws InputException {
        if (!inRepeat()) {
            return;
        }
        int from = repeatFrom;
        int to = target.size();
        repeatFrom = -1;
        known = false;
        for (int ix = 0; ix < repeatX; ix++) {
            for (int iy = 0; iy < repeatY; iy++) {
                for (int k = from; k < to && (ix > 0 || iy > 0); k++) {
                    put(
                            target.figure(k),
                            target.x(k) + ix * stepX,
                            target.y(k) + iy * stepY,
                            target.flag(k),
                            target.attribute(k),
                            at);
                }
            }
        }
    }
}
