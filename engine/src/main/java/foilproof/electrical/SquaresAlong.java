package foilproof.electrical;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.Comparator;
import java.util.List;
import java.util.PriorityQueue;

/**
 * A cheap guess of resistances: squares along the best way between contacts, a step counting its length over the width of
 * the copper there. Only ranks contacts; the sheet is solved for the ones that matter.
 */
final class SquaresAlong {
    private final SheetGrid grid;
    private final int contacts;
    private final int[] contactOf;
    private final float[] depth;

    private record Step(double cost, int cell) implements Comparable<Step> {
        @Override
        public int compareTo(Step o) {
            int c = Double.compare(cost, o.cost);
            return c != 0 ? c : Integer.compare(cell, o.cell);
        }
    }

    SquaresAlong(SheetGrid grid, List<SheetResistance.Contact> contacts) {
        this.grid = grid;
        this.contacts = contacts.size();
        int n = grid.cells();
        contactOf = new int[n];
        Arrays.fill(contactOf, -1);
        depth = grid.depths();
        for (int i = 0; i < n; i++) {
            for (int k = 0; depth[i] > 0 && contactOf[i] < 0 && k < contacts.size(); k++) {
                if (contacts.get(k).holds(grid.centreX(i), grid.centreY(i))) {
                    contactOf[i] = k;
                }
            }
        }
    }

    /** The contacts farthest from one, farthest first, those only that copper joins with it. */
    List<Integer> farthestFrom(int from, int most) {
        double[] squares = squaresFrom(from);
        List<Integer> all = new ArrayList<>();
        for (int k = 0; k < contacts; k++) {
            if (k != from && squares[k] < Double.POSITIVE_INFINITY) {
                all.add(k);
            }
        }
        all.sort(Comparator.comparingDouble((Integer k) -> -squares[k]).thenComparingInt(Integer::intValue));
        return all.subList(0, Math.min(most, all.size()));
    }

    private double[] squaresFrom(int from) {
        int n = grid.cells();
        double[] cost = new double[n];
        double[] reached = new double[contacts];
        Arrays.fill(cost, Double.POSITIVE_INFINITY);
        Arrays.fill(reached, Double.POSITIVE_INFINITY);
        PriorityQueue<Step> queue = new PriorityQueue<>();
        for (int i = 0; i < n; i++) {
            if (contactOf[i] == from) {
                cost[i] = 0;
                queue.add(new Step(0, i));
            }
        }
        int w = grid.columns;
        while (!queue.isEmpty()) {
            Step s = queue.poll();
            int i = s.cell();
            if (s.cost() > cost[i]) {
                continue;
            }
            if (contactOf[i] >= 0) {
                reached[contactOf[i]] = Math.min(reached[contactOf[i]], s.cost());
            }
            go(queue, cost, s.cost(), i, i + 1, grid.right(i));
            go(queue, cost, s.cost(), i, i - 1, i % w > 0 ? grid.right(i - 1) : 0);
            go(queue, cost, s.cost(), i, i + w, grid.above(i));
            go(queue, cost, s.cost(), i, i - w, grid.below[i]);
        }
        return reached;
    }

    private void go(PriorityQueue<Step> queue, double[] cost, double at, int from, int to, float face) {
        if (to < 0 || to >= cost.length || face <= SheetGrid.CLOSED) {
            return;
        }
        // copper through a contact costs nothing: it is soldered
        double c = at + (contactOf[from] >= 0 ? 0 : 1 / (2 * Math.max(0.5, Math.max(depth[from], depth[to]))));
        if (c < cost[to]) {
            cost[to] = c;
            queue.add(new Step(c, to));
        }
    }
}
