package org.rejoin.console.page;

import java.util.Collection;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.function.Supplier;

import org.rejoin.bridge.clearance.Phraseology;
import org.rejoin.bridge.flight.Entry;
import org.rejoin.bridge.flight.FlightRecord;
import org.rejoin.bridge.geo.Position;
import org.rejoin.console.grade.Grade;
import org.rejoin.console.lesson.Lesson;

/**
 * One lesson as it is shown: its seats, their picture, and the orders that are given to them. A page of one flight has one
 * show, a practice room has one for each seat that flies.
 */
public final class PageShow {

    /** Entries that a seat has room for, with some to spare. */
    private static final int EMPTIED_EVERY = 5_000;

    private final String name;
    private final PageServer.Setting setting;
    private final PageActions actions;
    private final RoutePicture routes;
    private final Picture picture;
    private final Orders orders;
    private final Map<String, SeatPage> seats = new ConcurrentHashMap<>();

    PageShow(String name, PageServer.Setting setting, PageActions actions) {
        this.name = name;
        this.setting = setting;
        this.actions = actions;
        this.routes = new RoutePicture(setting.lesson(), setting.date());
        this.picture = new Picture(setting, routes);
        this.orders = new Orders(actions, setting.lesson(), routes);
    }

    /**
     * Shows one more seat: the actions know it by its identifier, people by its label; ATC calls it by its marking as it was
     * sent, where that is a callsign. The grade so far is asked on the flight's thread, and the watcher is called on it.
     */
    public SeatPage seat(String id, String label, String marking, Supplier<Grade> grade) {
        return seats.computeIfAbsent(id, unseen -> seat(setting, routes, unseen, label, marking, grade));
    }

    private static SeatPage seat(
            PageServer.Setting setting,
            RoutePicture routes,
            String id,
            String label,
            String marking,
            Supplier<Grade> grade) {
        return new SeatPage(
                id, label, Phraseology.callsign(marking), routes, setting.set().limits(), grade);
    }

    Collection<SeatPage> seats() {
        return seats.values();
    }

    Lesson lesson() {
        return setting.lesson();
    }

    String name() {
        return name;
    }

    /** The aircraft of a name; the only one there is where none is named, as at a seat of a room. */
    Optional<SeatPage> seatOf(String id) {
        return id.isEmpty() && seats.size() == 1
                ? seats.values().stream().findFirst()
                : Optional.ofNullable(seats.get(id));
    }

    /** Why its flight is not recorded just now; empty where it is. May be told from any thread. */
    public void notRecorded(String why) {
        picture.notRecorded(why);
    }

    RoutePicture routes() {
        return routes;
    }

    Picture picture() {
        return picture;
    }

    Orders orders() {
        return orders;
    }

    PageActions actions() {
        return actions;
    }

    /** What is new of all seats. On the page's thread. */
    void news(Picture.Texts texts) {
        for (SeatPage seat : seats.values()) {
            picture.add(seat, texts);
            if (seat.stale()) {
                actions.execute(seat::refresh, () -> {});
            } else if (seat.data().silent()) {
                actions.execute(seat::goOn, () -> {});
            }
        }
        picture.update(texts);
    }

    /** How old the data of each seat is. On the page's thread. */
    void ages(Picture.Texts texts) {
        for (SeatPage seat : seats.values()) {
            texts.all(seat.ageLine());
        }
    }

    /**
     * Places on WGS 84 as the picture of a lesson has them: nautical miles east and south of the middle of its plan.
     */
    public static List<double[]> onPlan(PageServer.Setting setting, List<Position> places) {
        RoutePicture routes = new RoutePicture(setting.lesson(), setting.date());
        return places.stream()
                .map(routes::of)
                .map(point -> new double[] {routes.eastNm(point), routes.southNm(point)})
                .toList();
    }

    /**
     * A flight that is over, as a page would have been told it, a stream of server-sent events: for a debrief, and to
     * try a lesson.
     */
    public static String replayed(
            PageServer.Setting setting, String id, String label, Grade grade, FlightRecord record) {
        RoutePicture routes = new RoutePicture(setting.lesson(), setting.date());
        Picture picture = new Picture(setting, routes);
        SeatPage seat = seat(setting, routes, id, label, label, () -> grade);
        Picture.Texts texts = new Picture.Texts();
        int told = 0;
        picture.add(seat, texts);
        for (Entry entry : record.entries()) {
            entry.readBy(seat);
            if (++told % EMPTIED_EVERY == 0) {
                picture.update(texts);
            }
        }
        seat.refresh();
        picture.update(texts);
        picture.stage(Picture.Stage.OVER);
        return picture.whole(Audience.INSTRUCTOR, 1, 0);
    }
}
