package foilproof.stock;

/** What is summed over a grid of cells: quantities of a column of material, from rows of heights or exactly at a point. */
interface Columns {
    /** How many quantities. */
    int quantities();

    /**
     * Heights and quantities along a row of cell centres.
     *
     * @param j the row
     * @param i0 first column
     * @param count how many cells
     * @param height what walls are looked for in, mm
     * @param values for each quantity one value a cell
     */
    void row(int j, int i0, int count, float[] height, float[][] values);

    /** The height in which walls are looked for, exactly, mm. */
    double exactHeightMm(double xMm, double yMm);

    /** Whether heights may differ within a tile of the grid; where not, they are those of an untouched place. */
    boolean varies(int tileX, int tileY);

    /** Whether there may be squares to put right in a tile of the grid. */
    default boolean stepped(int tileX, int tileY) {
        return varies(tileX, tileY);
    }

    /** Whether the exact height is at a level or below it. */
    default boolean reaches(double xMm, double yMm, double levelMm) {
        return exactHeightMm(xMm, yMm) <= levelMm;
    }

    /** Whether there may be squares to put right at all. */
    boolean hasWalls();

    /** Whether a square with these least and greatest heights is to be put right. */
    boolean parted(float low, float high);

    /** Whether the step between two neighbours is an upright wall, whose place only the exact shape tells. */
    boolean upright(float low, float high);

    /** The level at which the wall between a low and a high part is looked for, mm. */
    double levelMm(double low, double high);
}
