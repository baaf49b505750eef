package foilproof.stock;

import foilproof.copper.CopperMap;
import foilproof.copper.MergeTree;
import foilproof.copper.NetLimits;
import foilproof.copper.RunSideField;
import foilproof.copper.SideField;
import foilproof.copper.StripFinder;
import java.lang.management.ManagementFactory;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;

/**
 * Processor time of the whole process for the copper of reference job R: for machines whose wall time says nothing
 * because other work runs beside. Arguments: cell in um, rounds.
 */
public final class CopperCpuTimes {
    private CopperCpuTimes() {}

    private interface Work {
        Object run();
    }

    /** Prints the least of some rounds of each part, ms. */
    public static void main(String[] arguments) {
        double cell = Double.parseDouble(arguments[0]) / 1000;
        int rounds = Integer.parseInt(arguments[1]);
        Envelope envelope =
                Envelope.sweep(ReferenceJobs.r(), ReferenceJobs.bit(), SweepSettings.forBlank(cell, 100, 80), 0);
        BlankBody blank = new BlankBody(100, 80, 1.5, 0.0348, false);
        ComposedBoard board = BoardStock.oneSide(
                        blank, BlankSurface.FLAT, 0.1, List.of(RunCut.onFoil(0, envelope, 0.2, 0.2)))
                .under(Conditions.NOMINAL);
        SideField field = new SideField(board, 1);
        String[] names = {"map", "tree", "limits of nets", "strips", "gaps"};
        double[] least = new double[names.length];
        double[] first = new double[names.length];
        Arrays.fill(least, Double.POSITIVE_INFINITY);
        for (int round = 0; round < rounds; round++) {
            Object[] made = new Object[names.length];
            Work[] works = {
                () -> CopperMap.of(field, 0),
                () -> MergeTree.of(RunSideField.of(board, 1, 0), -0.0602),
                () -> NetLimits.byPieces((MergeTree) made[1]),
                () -> StripFinder.strips((CopperMap) made[0], 0.25, null, null),
                () -> StripFinder.gaps((CopperMap) made[0], 0.15)
            };
            for (int k = 0; k < works.length; k++) {
                long before = cpu();
                made[k] = works[k].run();
                double ms = (cpu() - before) / 1e6;
                least[k] = Math.min(least[k], ms);
                first[k] = round == 0 ? ms : first[k];
            }
        }
        for (int k = 0; k < names.length; k++) {
            System.out.printf(Locale.ROOT, "%s: first %.0f, least %.0f ms%n", names[k], first[k], least[k]);
        }
    }

    private static long cpu() {
        return ((com.sun.management.OperatingSystemMXBean) ManagementFactory.getOperatingSystemMXBean())
                .getProcessCpuTime();
    }
}
