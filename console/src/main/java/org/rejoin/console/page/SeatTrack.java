package org.rejoin.console.page;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.ArrayBlockingQueue;
import java.util.concurrent.BlockingQueue;
import java.util.concurrent.atomic.AtomicLong;
import java.util.concurrent.atomic.AtomicReference;

import org.rejoin.bridge.flight.Limits;
import org.rejoin.bridge.flight.Point;
import org.rejoin.console.draw.Projection;

import org.jspecify.annotations.Nullable;

/** The track of one seat on its way to the page, in a bounded queue; what finds no room is counted. */
final class SeatTrack {

    private static final int ROOM = 20_000;

    /** That is all that a page keeps; nobody sees more, seconds. */
    private static final double EVERY_S = 0.25;

    private final RoutePicture picture;
    private final Limits limits;
    private final BlockingQueue<Row> rows = new ArrayBlockingQueue<>(ROOM);
    private final AtomicReference<@Nullable Row> latest = new AtomicReference<>();
    private final AtomicLong lost = new AtomicLong();
    private boolean apart = true;
    private @Nullable Row before;

    SeatTrack(RoutePicture picture, Limits limits) {
        this.picture = picture;
        this.limits = limits;
    }

    /** Takes a point that was flown under these clearances; on the flight's thread. */
    void add(Point point, SeatClearances clearances) {
        apart |= point.newPiece();
        Row row = row(point, clearances);
        if (before == null || !row.follows(before) || row.timeS() - before.timeS() >= EVERY_S) {
            before = row;
            apart = false;
            if (!rows.offer(row)) {
                lost.incrementAndGet();
            }
        }
        latest.set(row);
    }

    /** Shows the aircraft at a point that was not sent; on the flight's thread. */
    void show(Point reckoned, SeatClearances clearances) {
        latest.set(row(reckoned, clearances));
    }

    /** Takes what waits; on the page's thread. */
    List<Row> take() {
        List<Row> all = new ArrayList<>();
        rows.drainTo(all);
        return all;
    }

    /** The latest; empty where none came since it was asked for last. */
    Optional<Row> latest() {
        return Optional.ofNullable(latest.getAndSet(null));
    }

    long lost() {
        return lost.get();
    }

    private Row row(Point point, SeatClearances clearances) {
        Projection.Point at = picture.of(point.position());
        return new Row(
                point.timeS(),
                picture.eastNm(at),
                picture.southNm(at),
                point.trackTrueDeg(),
                point.groundSpeedKt(),
                point.state().altitudeMslFt(),
                Point.given(point.headingMagneticDeg()),
                Point.given(point.headingErrorDeg()),
                Point.given(point.altitudeErrorFt()),
                apart,
                new Row.Line(
                        clearances.inForce(),
                        point.legIndex(),
                        Point.given(point.crossTrackNm()),
                        Point.given(point.toGoNm()),
                        limits.courseScale() * (point.hasLine() ? point.fullScaleNm() : 0),
                        clearances.ofRoute()));
    }
}
