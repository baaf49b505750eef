package foilproof.copper;

import org.jspecify.annotations.Nullable;

/** One tool run's e* from closed forms, and what other runs leave. */
final class RunField implements ToolRunField {
    private final GrooveField own;
    private final @Nullable GrooveField others;

    RunField(GrooveField own, @Nullable GrooveField others) {
        this.own = own;
        this.others = others;
    }

    @Override
    public boolean hasOthers() {
        return others != null;
    }

    @Override
    public void othersRow(int row, float[] into) {
        java.util.Objects.requireNonNull(others).marginRow(row, into);
    }

    @Override
    public double exactOthersMm(double xMm, double yMm) {
        return others == null ? own.cap : others.exactMarginMm(xMm, yMm);
    }

    @Override
    public double headroomMm() {
        return own.cap - own.foil;
    }

    @Override
    public ToolRunField flattened() {
        GrooveField flat = own.deeper(0);
        flat.surface = (x, y) -> 0;
        GrooveField flatOthers = others == null ? null : others.deeper(0);
        if (flatOthers != null) {
            flatOthers.surface = (x, y) -> 0;
        }
        return new RunField(flat, flatOthers);
    }

    @Override
    public double cellMm() {
        return own.cellMm();
    }

    @Override
    public int columns() {
        return own.columns();
    }

    @Override
    public int rows() {
        return own.rows();
    }

    @Override
    public double widthMm() {
        return own.widthMm();
    }

    @Override
    public double heightMm() {
        return own.heightMm();
    }

    @Override
    public double foilMm() {
        return own.foilMm();
    }

    @Override
    public double capMm() {
        return own.capMm();
    }

    @Override
    public void marginRow(int row, float[] into) {
        own.marginRow(row, into);
    }

    @Override
    public double exactMarginMm(double xMm, double yMm) {
        return own.exactMarginMm(xMm, yMm);
    }

    @Override
    public double steepestSlope() {
        return Math.max(own.steepestSlope(), others == null ? 1 : others.steepestSlope());
    }
}
