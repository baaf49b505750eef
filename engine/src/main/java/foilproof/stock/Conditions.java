package foilproof.stock;

import java.util.Arrays;

/**
 * What may lie otherwise than the job says, answered without sweeping again: the Z error of each tool run, bow, foil,
 * thickness, and which runs happened at all. Immutable.
 */
public final class Conditions {
    private final double[] zErrorMm;
    private final boolean[] absent;
    private final double bowMm;
    private final double foilMm;
    private final double thicknessMm;

    private Conditions(double[] zErrorMm, boolean[] absent, double bowMm, double foilMm, double thicknessMm) {
        this.zErrorMm = zErrorMm;
        this.absent = absent;
        this.bowMm = bowMm;
        this.foilMm = foilMm;
        this.thicknessMm = thicknessMm;
    }

    /** All as the job says. */
    public static final Conditions NOMINAL = new Conditions(new double[0], new boolean[0], 0, Double.NaN, Double.NaN);

    /** The same with the Z error of a run, by its index in the job, mm, + = really deeper. */
    public Conditions withZError(int run, double errorMm) {
        double[] errors = Arrays.copyOf(zErrorMm, Math.max(zErrorMm.length, run + 1));
        errors[run] = errorMm;
        return new Conditions(errors, absent, bowMm, foilMm, thicknessMm);
    }

    /** The same without a run (the tool was forgotten), or with it again. */
    public Conditions withPresent(int run, boolean present) {
        boolean[] gone = Arrays.copyOf(absent, Math.max(absent.length, run + 1));
        gone[run] = !present;
        return new Conditions(zErrorMm, gone, bowMm, foilMm, thicknessMm);
    }

    /** The same with the blank's middle low by this, its edge where it was, mm. */
    public Conditions withBow(double newBowMm) {
        return new Conditions(zErrorMm, absent, newBowMm, foilMm, thicknessMm);
    }

    /** The same with another foil thickness, mm. */
    public Conditions withFoil(double newFoilMm) {
        return new Conditions(zErrorMm, absent, bowMm, newFoilMm, thicknessMm);
    }

    /** The same with another thickness of the blank, mm. */
    public Conditions withThickness(double newThicknessMm) {
        return new Conditions(zErrorMm, absent, bowMm, foilMm, newThicknessMm);
    }

    /** Z error of a run, mm, + = really deeper. */
    public double zErrorMm(int run) {
        return run < zErrorMm.length ? zErrorMm[run] : 0;
    }

    /** Whether a run happens. */
    public boolean present(int run) {
        return run >= absent.length || !absent[run];
    }

    /** How much lower the blank's middle lies, mm, its edge where it was. */
    public double bowMm() {
        return bowMm;
    }

    /** Foil thickness, mm: the one in question, else the blank's own. */
    public double foilMm(BlankBody blank) {
        return Double.isNaN(foilMm) ? blank.foilMm() : foilMm;
    }

    /** Thickness of the blank, mm: the one in question, else the blank's own. */
    public double thicknessMm(BlankBody blank) {
        return Double.isNaN(thicknessMm) ? blank.thicknessMm() : thicknessMm;
    }
}
