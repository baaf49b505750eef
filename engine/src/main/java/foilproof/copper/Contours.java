package foilproof.copper;

/**
 * Closed polygons round the copper of a map, copper on their left, in the blank's frame; vertices of one loop follow
 * each other. Loops are ordered by their first crossing in the order of the rows.
 */
final class Contours {
    /** A sloping wall's contour is off by the heights' own rounding over the slope and by the wall's curve in a cell. */
    private static final double SLOPED_ERROR_CELLS = 0.05;
    /** {@link MarginField#wallFraction} stops at 1/1024 of a cell. */
    private static final double WALL_ERROR_CELLS = 0.001;

    final double[] x;
    final double[] y;
    final byte[] kind;
    /** First vertex of each loop, and one entry more for the end. */
    final int[] loopStart;

    final int[] loopComponent;
    final double cellMm;

    private Contours(double[] x, double[] y, byte[] kind, int[] loopStart, int[] loopComponent, double cellMm) {
        this.x = x;
        this.y = y;
        this.kind = kind;
        this.loopStart = loopStart;
        this.loopComponent = loopComponent;
        this.cellMm = cellMm;
    }

    static Contours join(MapStripe[] stripes, int[] runBase, int[] componentOfRun, double cellMm) {
        int[] base = new int[stripes.length + 1];
        for (int s = 0; s < stripes.length; s++) {
            base[s + 1] = base[s] + stripes[s].x.size;
        }
        int size = base[stripes.length];
        int[] next = new int[size];
        for (int s = 0; s < stripes.length; s++) {
            MapStripe stripe = stripes[s];
            for (int k = 0; k < stripe.next.size; k++) {
                int to = stripe.next.data[k];
                next[base[s] + k] = to >= 0 ? base[s] + to : base[s + 1] - 2 - to;
            }
        }
        // A foreign start overwrites what its own band did not know.
        for (int s = 0; s + 1 < stripes.length; s++) {
            MapStripe stripe = stripes[s];
            for (int k = 0; k < stripe.foreignFrom.size; k++) {
                int to = stripe.foreignTo.data[k];
                next[base[s + 1] + stripe.foreignFrom.data[k]] = to >= 0 ? base[s] + to : base[s + 1] - 2 - to;
            }
        }
        return trace(stripes, base, runBase, componentOfRun, next, cellMm);
    }

    private static Contours trace(
            MapStripe[] stripes, int[] base, int[] runBase, int[] componentOfRun, int[] next, double cellMm) {
        int size = next.length;
        double[] x = new double[size];
        double[] y = new double[size];
        byte[] kind = new byte[size];
        double[] fromX = new double[size];
        double[] fromY = new double[size];
        int[] fromRun = new int[size];
        byte[] fromKind = new byte[size];
        for (int s = 0; s < stripes.length; s++) {
            MapStripe stripe = stripes[s];
            System.arraycopy(stripe.x.data, 0, fromX, base[s], stripe.x.size);
            System.arraycopy(stripe.y.data, 0, fromY, base[s], stripe.x.size);
            for (int k = 0; k < stripe.x.size; k++) {
                int run = stripe.run.data[k];
                fromRun[base[s] + k] = run < 0 ? -1 : runBase[s] + run;
                fromKind[base[s] + k] = (byte) stripe.kind.data[k];
            }
        }
        IntList starts = new IntList(64);
        IntList components = new IntList(64);
        int out = 0;
        for (int first = 0; first < size; first++) {
            if (next[first] < 0) {
                continue;
            }
            starts.add(out);
            int component = -1;
            int at = first;
            while (next[at] >= 0) {
                x[out] = fromX[at];
                y[out] = fromY[at];
                kind[out++] = fromKind[at];
                if (component < 0 && fromRun[at] >= 0) {
                    component = componentOfRun[fromRun[at]];
                }
                int to = next[at];
                next[at] = -1;
                at = to;
            }
            components.add(component);
        }
        starts.add(out);
        return new Contours(x, y, kind, starts.toArray(), components.toArray(), cellMm);
    }

    /** Area within all contours and its error, from the links alone: each adds its cross product. */
    static double[] areaOf(MapStripe[] stripes, double cellMm) {
        double[] sum = new double[2];
        for (int s = 0; s < stripes.length; s++) {
            MapStripe here = stripes[s];
            MapStripe next = s + 1 < stripes.length ? stripes[s + 1] : here;
            for (int k = 0; k < here.runHidden.size; k++) {
                sum[1] += 0.5 * here.runHidden.data[k] * cellMm * cellMm;
            }
            for (int k = 0; k < here.next.size; k++) {
                if (here.next.data[k] != -1) {
                    addLink(here, k, here, next, here.next.data[k], cellMm, sum);
                }
            }
            for (int k = 0; k < here.foreignFrom.size; k++) {
                addLink(next, here.foreignFrom.data[k], here, next, here.foreignTo.data[k], cellMm, sum);
            }
        }
        return sum;
    }

    private static void addLink(
            MapStripe fromStripe, int from, MapStripe here, MapStripe next, int to, double cellMm, double[] sum) {
        MapStripe toStripe = to >= 0 ? here : next;
        int at = to >= 0 ? to : -2 - to;
        double x0 = fromStripe.x.data[from];
        double y0 = fromStripe.y.data[from];
        double x1 = toStripe.x.data[at];
        double y1 = toStripe.y.data[at];
        sum[0] += 0.5 * (x0 * y1 - x1 * y0);
        double length = Math.sqrt((x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0));
        sum[1] += length * cellMm * errorCells((byte) fromStripe.kind.data[from]);
    }

    private static double errorCells(byte kind) {
        return kind == MapStripe.SLOPED ? SLOPED_ERROR_CELLS : kind == MapStripe.WALL ? WALL_ERROR_CELLS : 0;
    }

    int loops() {
        return loopComponent.length;
    }

    int componentCount(int[] componentOfRun) {
        int count = 0;
        for (int c : componentOfRun) {
            count = Math.max(count, c + 1);
        }
        return count;
    }

    /** Adds each loop's area and what its place is unsure by to its component; holes count negative. */
    void addAreas(double[] areaMm2, double[] errorMm2) {
        for (int l = 0; l < loops(); l++) {
            int from = loopStart[l];
            int to = loopStart[l + 1];
            double ox = x[from];
            double oy = y[from];
            double twice = 0;
            double error = 0.5 * cellMm * cellMm * WALL_ERROR_CELLS;
            for (int k = from; k < to; k++) {
                int n = k + 1 == to ? from : k + 1;
                twice += (x[k] - ox) * (y[n] - oy) - (x[n] - ox) * (y[k] - oy);
                double dx = x[n] - x[k];
                double dy = y[n] - y[k];
                error += errorCells(kind[k]) * cellMm * Math.sqrt(dx * dx + dy * dy);
            }
            areaMm2[loopComponent[l]] += 0.5 * twice;
            errorMm2[loopComponent[l]] += error;
        }
    }

    /** Bounding box of every component: x0, y0, x1, y1. */
    double[][] boxes(int components) {
        double[][] boxes = new double[components][];
        for (int c = 0; c < components; c++) {
            boxes[c] = new double[] {
                Double.POSITIVE_INFINITY, Double.POSITIVE_INFINITY, Double.NEGATIVE_INFINITY, Double.NEGATIVE_INFINITY
            };
        }
        for (int l = 0; l < loops(); l++) {
            double[] box = boxes[loopComponent[l]];
            for (int k = loopStart[l]; k < loopStart[l + 1]; k++) {
                box[0] = Math.min(box[0], x[k]);
                box[1] = Math.min(box[1], y[k]);
                box[2] = Math.max(box[2], x[k]);
                box[3] = Math.max(box[3], y[k]);
            }
        }
        return boxes;
    }
}
