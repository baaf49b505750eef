package foilproof.design;

import foilproof.bench.Face;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.BitSet;
import java.util.Collections;
import java.util.HashMap;
import java.util.IdentityHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import org.jspecify.annotations.Nullable;

/**
 * The image of one copper layer: dark and clear objects in polarity order, each exact (arcs stay arcs). Where an
 * object clears, everything before it is gone. Immutable once built and safe for many threads.
 *
 * <p>Objects are held in columns and share their figures, about 40 bytes a flash, so that a million flashes fit
 * in some 40 MB.
 */
public final class LayerImage {
    private final Figure[] figures;
    private final double[] dx;
    private final double[] dy;
    private final int[] attributeOf;
    private final int[] lineOf;
    private final byte[] flags;
    private final List<ObjectAttributes> attributes;
    private final Map<String, List<String>> fileAttributes;
    private final Bounds bounds;
    private final boolean cutShort;
    private volatile @Nullable BoxIndex index;
    private volatile @Nullable Groups groups;
    private volatile @Nullable CopperPieces pieces;
    private volatile @Nullable List<Pad> pads;

    private LayerImage(Builder b) {
        figures = Arrays.copyOf(b.figures, b.count);
        dx = Arrays.copyOf(b.dx, b.count);
        dy = Arrays.copyOf(b.dy, b.count);
        attributeOf = Arrays.copyOf(b.attributeOf, b.count);
        lineOf = Arrays.copyOf(b.lineOf, b.count);
        flags = Arrays.copyOf(b.flags, b.count);
        attributes = List.copyOf(b.attributes);
        fileAttributes = Map.copyOf(b.fileAttributes);
        cutShort = b.cutShort;
        Bounds box = Bounds.NONE;
        for (int i = 0; i < b.count; i++) {
            box = isDark(i) ? box.with(boundsOf(i)) : box;
        }
        bounds = box;
    }

    /** Number of objects. */
    public int size() {
        return figures.length;
    }

    /** True where the file has no end (M02): objects may be missing, so what the image joins is not known. */
    public boolean cutShort() {
        return cutShort;
    }

    /** An object in polarity order. */
    public GraphicObject object(int i) {
        return new GraphicObject(
                i, kindOf(i), isDark(i), boundsOf(i), figures[i].areaMm2(), attributesOf(i), lineOf[i]);
    }

    /** True where the object adds copper. */
    public boolean isDark(int i) {
        return (flags[i] & Builder.DARK) != 0;
    }

    /** How the object was made. */
    public GraphicObject.Kind kindOf(int i) {
        return GraphicObject.Kind.values()[flags[i] >> Builder.KIND_SHIFT & 3];
    }

    /** What the file says about the object. */
    public ObjectAttributes attributesOf(int i) {
        return attributes.get(attributeOf[i]);
    }

    /** Attributes of the file (TF), by name without the leading point, e.g. {@code FileFunction}. */
    public Map<String, List<String>> fileAttributes() {
        return fileAttributes;
    }

    /** The copper face that the file says it shows, or null where it does not say or is no outer copper layer. */
    public @Nullable Face statedFace() {
        List<String> function = fileAttributes.getOrDefault("FileFunction", List.of());
        if (function.size() < 3 || !function.get(0).equals("Copper")) {
            return null;
        }
        return function.get(2).equals("Top") ? Face.TOP : function.get(2).equals("Bot") ? Face.BOTTOM : null;
    }

    /** The box round all dark objects. */
    public Bounds bounds() {
        return bounds;
    }

    Bounds boundsOf(int i) {
        Bounds b = figures[i].box;
        return new Bounds(b.minXMm() + dx[i], b.minYMm() + dy[i], b.maxXMm() + dx[i], b.maxYMm() + dy[i]);
    }

    Figure figureOf(int i) {
        return figures[i];
    }

    double dxOf(int i) {
        return dx[i];
    }

    double dyOf(int i) {
        return dy[i];
    }

    int lineOf(int i) {
        return lineOf[i];
    }

    /** True where the image shows copper at the point: the last object that covers it decides. Exact. */
    public boolean covers(double xMm, double yMm) {
        int top = topObjectAt(xMm, yMm);
        return top >= 0 && isDark(top);
    }

    /** The last object that covers the point, dark or clear, or -1 where none does. */
    public int topObjectAt(double xMm, double yMm) {
        return lastObjectAt(xMm, yMm, size());
    }

    private int lastObjectAt(double x, double y, int below) {
        BoxIndex grid = index();
        int[] large = grid.large();
        int cell = grid.cell(x, y);
        int p = grid.to(cell) - 1;
        int first = grid.from(cell);
        int q = large.length - 1;
        while (p >= first || q >= 0) {
            int a = p >= first ? grid.item(p) : -1;
            int b = q >= 0 ? large[q] : -1;
            int i = Math.max(a, b);
            if (a > b) {
                p--;
            } else {
                q--;
            }
            if (i < below && figures[i].contains(x - dx[i], y - dy[i])) {
                return i;
            }
        }
        return -1;
    }

    /**
     * Net of the copper at a point: that of the last dark object there that names one. Null where there is no
     * copper, or no object that covers the point names a net.
     */
    public @Nullable String netAt(double xMm, double yMm) {
        int i = topObjectAt(xMm, yMm);
        while (i >= 0 && isDark(i)) {
            String net = attributesOf(i).net();
            if (net != null) {
                return net;
            }
            i = lastObjectAt(xMm, yMm, i);
        }
        return null;
    }

    /** Names of the nets that the file's objects carry, in the order of the file. */
    public Set<String> netNames() {
        boolean[] used = new boolean[attributes.size()];
        for (int a : attributeOf) {
            used[a] = true;
        }
        Set<String> names = new LinkedHashSet<>();
        for (int a = 0; a < used.length; a++) {
            String net = used[a] ? attributes.get(a).net() : null;
            if (net != null) {
                names.add(net);
            }
        }
        return Collections.unmodifiableSet(names);
    }

    /** Every dark flash, in the order of the file. Worked out on first use, then kept. */
    public List<Pad> pads() {
        List<Pad> known = pads;
        if (known == null) {
            List<Pad> made = new ArrayList<>();
            for (int i = 0; i < size(); i++) {
                if (isPad(i)) {
                    made.add(pad(i));
                }
            }
            known = Collections.unmodifiableList(made);
            pads = known;
        }
        return known;
    }

    private boolean isPad(int i) {
        return isDark(i) && kindOf(i) == GraphicObject.Kind.FLASH;
    }

    private Pad pad(int i) {
        Bounds box = boundsOf(i);
        return new Pad(
                i,
                Pad.Shape.values()[flags[i] >> Builder.SHAPE_SHIFT & 7],
                dx[i],
                dy[i],
                box.widthMm(),
                box.heightMm(),
                box,
                figures[i].areaMm2(),
                attributesOf(i),
                lineOf[i]);
    }

    /** Dark flashes whose box, grown by {@code reachMm} on all sides, holds the point; in the order of the file. */
    public List<Pad> padsNear(double xMm, double yMm, double reachMm) {
        BoxIndex grid = index();
        BitSet found = new BitSet();
        for (int r = grid.rowOf(yMm - reachMm); r <= grid.rowOf(yMm + reachMm); r++) {
            for (int c = grid.columnOf(xMm - reachMm); c <= grid.columnOf(xMm + reachMm); c++) {
                int cell = r * grid.columns() + c;
                for (int p = grid.from(cell); p < grid.to(cell); p++) {
                    takeNear(grid.item(p), xMm, yMm, reachMm, found);
                }
            }
        }
        for (int i : grid.large()) {
            takeNear(i, xMm, yMm, reachMm, found);
        }
        List<Pad> out = new ArrayList<>(found.cardinality());
        for (int i = found.nextSetBit(0); i >= 0; i = found.nextSetBit(i + 1)) {
            out.add(pad(i));
        }
        return out;
    }

    private void takeNear(int i, double x, double y, double reach, BitSet found) {
        if (isPad(i)) {
            Bounds box = figures[i].box;
            if (x >= box.minXMm() + dx[i] - reach
                    && x <= box.maxXMm() + dx[i] + reach
                    && y >= box.minYMm() + dy[i] - reach
                    && y <= box.maxYMm() + dy[i] + reach) {
                found.set(i);
            }
        }
    }

    /**
     * Area of the copper, mm2. Objects that meet no other are counted by closed forms; the rest by quadrature
     * over exact scan lines, good to about 1e-8 of the area. Where too many objects overlap for that ({@link
     * CopperPieces#exact} is false) scan lines 5 um apart are used, or more for a million objects: good to about 1e-4.
     */
    public double areaMm2() {
        Groups g = groups();
        double sum = 0;
        for (PieceSet set : g.sets) {
            sum += set.areaMm2();
        }
        return sum;
    }

    /** Connected pieces of the copper. Worked out on first use, then kept. */
    public CopperPieces pieces() {
        CopperPieces known = pieces;
        if (known == null) {
            Groups g = groups();
            known = new CopperPieces(this, g.sets, g.shiftX, g.shiftY, g.groupOfObject);
            pieces = known;
        }
        return known;
    }

    /**
     * The copper on a grid, cell (column, row) at bit {@code row * columns + column}: set where the cell's centre
     * is covered. Exact at the centres; time in proportion to the scan lines that the objects cross.
     */
    public BitSet rasterise(RasterGrid grid) {
        BitSet out = new BitSet(grid.columns() * grid.rows());
        Spans spans = new Spans();
        for (int i = 0; i < size(); i++) {
            Bounds box = boundsOf(i);
            int r0 = (int) Math.max(0, Math.ceil((box.minYMm() - grid.y0Mm()) / grid.cellMm() - 0.5));
            int r1 = (int) Math.min(grid.rows() - 1, Math.floor((box.maxYMm() - grid.y0Mm()) / grid.cellMm() - 0.5));
            boolean dark = isDark(i);
            for (int r = r0; r <= r1; r++) {
                spans.clear();
                figures[i].spans(grid.centreYMm(r) - dy[i], dx[i], spans);
                int base = r * grid.columns();
                for (int s = 0; s < spans.count; s++) {
                    int c0 = (int) Math.max(0, Math.ceil((spans.at[2 * s] - grid.x0Mm()) / grid.cellMm() - 0.5));
                    int c1 = (int) Math.min(
                            grid.columns(), Math.ceil((spans.at[2 * s + 1] - grid.x0Mm()) / grid.cellMm() - 0.5));
                    if (c1 > c0) {
                        out.set(base + c0, base + c1, dark);
                    }
                }
            }
        }
        return out;
    }

    /** The same image in another frame, e.g. by {@link Placement#blankFromDesign}. */
    public LayerImage mapped(PlaneMap map) {
        PlaneMap linear = new PlaneMap(map.xx(), map.xy(), map.yx(), map.yy(), 0, 0);
        Map<Figure, Figure> done = new IdentityHashMap<>();
        Builder b = new Builder();
        b.fileAttributes.putAll(fileAttributes);
        b.cutShort = cutShort;
        for (int i = 0; i < size(); i++) {
            Figure figure = done.computeIfAbsent(figures[i], f -> f.mapped(linear));
            b.add(figure, map.xMm(dx[i], dy[i]), map.yMm(dx[i], dy[i]), flags[i], attributesOf(i), lineOf[i]);
        }
        return b.build();
    }

    BoxIndex index() {
        BoxIndex known = index;
        if (known == null) {
            int n = size();
            double[] minX = new double[n];
            double[] minY = new double[n];
            double[] maxX = new double[n];
            double[] maxY = new double[n];
            for (int i = 0; i < n; i++) {
                Bounds box = figures[i].box;
                minX[i] = box.minXMm() + dx[i];
                minY[i] = box.minYMm() + dy[i];
                maxX[i] = box.maxXMm() + dx[i];
                maxY[i] = box.maxYMm() + dy[i];
            }
            known = new BoxIndex(minX, minY, maxX, maxY);
            index = known;
        }
        return known;
    }

    private record Groups(PieceSet[] sets, double[] shiftX, double[] shiftY, int[] groupOfObject) {}

    /** Objects whose boxes meet, directly or through others, are swept together. */
    private Groups groups() {
        Groups known = groups;
        if (known == null) {
            known = makeGroups();
            groups = known;
        }
        return known;
    }

    private Groups makeGroups() {
        int n = size();
        int[] parent = new int[n];
        for (int i = 0; i < n; i++) {
            parent[i] = i;
        }
        BoxIndex grid = index();
        int[] large = grid.large();
        for (int i = 0; i < n; i++) {
            Bounds box = boundsOf(i);
            for (int other : large) {
                joinIfMeet(parent, i, box, other);
            }
            if (Arrays.binarySearch(large, i) >= 0 || box.isEmpty()) {
                continue;
            }
            for (int r = grid.rowOf(box.minYMm()); r <= grid.rowOf(box.maxYMm()); r++) {
                for (int c = grid.columnOf(box.minXMm()); c <= grid.columnOf(box.maxXMm()); c++) {
                    int cell = r * grid.columns() + c;
                    for (int p = grid.from(cell); p < grid.to(cell) && grid.item(p) < i; p++) {
                        joinIfMeet(parent, i, box, grid.item(p));
                    }
                }
            }
        }
        int[] groupOf = new int[n];
        int count = 0;
        for (int i = 0; i < n; i++) {
            int r = root(parent, i);
            groupOf[i] = r == i ? count++ : groupOf[r];
        }
        int[] sizes = new int[count];
        for (int g : groupOf) {
            sizes[g]++;
        }
        int[][] members = new int[count][];
        int[] fill = new int[count];
        for (int i = 0; i < n; i++) {
            int g = groupOf[i];
            if (members[g] == null) {
                members[g] = new int[sizes[g]];
            }
            members[g][fill[g]++] = i;
        }
        PieceSet[] sets = new PieceSet[count];
        double[] shiftX = new double[count];
        double[] shiftY = new double[count];
        for (int g = 0; g < count; g++) {
            int only = members[g][0];
            if (members[g].length > 1) {
                sets[g] = sweep(members[g]);
            } else {
                sets[g] = isDark(only) ? figures[only].ownPieces() : PieceSet.NONE;
                shiftX[g] = dx[only];
                shiftY[g] = dy[only];
            }
        }
        return new Groups(sets, shiftX, shiftY, groupOf);
    }

    private SlabSweep sweep(int[] members) {
        Figure[] f = new Figure[members.length];
        double[] x = new double[members.length];
        double[] y = new double[members.length];
        boolean[] dark = new boolean[members.length];
        for (int k = 0; k < members.length; k++) {
            int i = members[k];
            f[k] = figures[i];
            x[k] = dx[i];
            y[k] = dy[i];
            dark[k] = isDark(i);
        }
        return new SlabSweep(f, x, y, dark);
    }

    private void joinIfMeet(int[] parent, int i, Bounds box, int other) {
        Figure f = figures[other];
        if (f.box.minXMm() + dx[other] <= box.maxXMm()
                && f.box.maxXMm() + dx[other] >= box.minXMm()
                && f.box.minYMm() + dy[other] <= box.maxYMm()
                && f.box.maxYMm() + dy[other] >= box.minYMm()) {
            int a = root(parent, i);
            int b = root(parent, other);
            if (a != b) {
                parent[Math.max(a, b)] = Math.min(a, b);
            }
        }
    }

    private static int root(int[] parent, int i) {
        int r = i;
        while (parent[r] != r) {
            parent[r] = parent[parent[r]];
            r = parent[r];
        }
        return r;
    }

    /** Collects objects in polarity order. */
    static final class Builder {
        static final int DARK = 1;
        static final int KIND_SHIFT = 1;
        static final int SHAPE_SHIFT = 3;

        private Figure[] figures = new Figure[64];
        private double[] dx = new double[64];
        private double[] dy = new double[64];
        private int[] attributeOf = new int[64];
        private int[] lineOf = new int[64];
        private byte[] flags = new byte[64];
        private int count;
        private final List<ObjectAttributes> attributes = new ArrayList<>();
        private final Map<ObjectAttributes, Integer> attributeIndex = new HashMap<>();
        final Map<String, List<String>> fileAttributes = new HashMap<>();
        private @Nullable ObjectAttributes lastAttributes;
        private int lastAttributeIndex;
        /** Whether the file ended before its end. */
        boolean cutShort;

        static byte flagsOf(boolean dark, GraphicObject.Kind kind, Pad.Shape shape) {
            return (byte) ((dark ? DARK : 0) | kind.ordinal() << KIND_SHIFT | shape.ordinal() << SHAPE_SHIFT);
        }

        int size() {
            return count;
        }

        void add(Figure figure, double x, double y, byte flag, ObjectAttributes attribute, int line) {
            if (count == figures.length) {
                int to = count * 2;
                figures = Arrays.copyOf(figures, to);
                dx = Arrays.copyOf(dx, to);
                dy = Arrays.copyOf(dy, to);
                attributeOf = Arrays.copyOf(attributeOf, to);
                lineOf = Arrays.copyOf(lineOf, to);
                flags = Arrays.copyOf(flags, to);
            }
            if (attribute != lastAttributes) {
                Integer known = attributeIndex.get(attribute);
                if (known == null) {
                    known = attributes.size();
                    attributes.add(attribute);
                    attributeIndex.put(attribute, known);
                }
                lastAttributes = attribute;
                lastAttributeIndex = known;
            }
            figures[count] = figure;
            dx[count] = x;
            dy[count] = y;
            attributeOf[count] = lastAttributeIndex;
            lineOf[count] = line;
            flags[count] = flag;
            count++;
        }

        Figure figure(int i) {
            return figures[i];
        }

        double x(int i) {
            return dx[i];
        }

        double y(int i) {
            return dy[i];
        }

        byte flag(int i) {
            return flags[i];
        }

        ObjectAttributes attribute(int i) {
            return attributes.get(attributeOf[i]);
        }

        int line(int i) {
            return lineOf[i];
        }

        LayerImage build() {
            return new LayerImage(this);
        }
    }
}
