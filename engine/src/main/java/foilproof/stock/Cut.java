package foilproof.stock;

/**
 * One move that came to a point.
 *
 * @param run index of the tool run in the job
 * @param segment index of the segment in the job: line and program are found there
 * @param heightMm how low the move leaves the point, mm in the blank's frame of the side
 * @param timeS when it does so, seconds since the job's start; within a segment at even speed
 */
public record Cut(int run, int segment, double heightMm, double timeS) {}
