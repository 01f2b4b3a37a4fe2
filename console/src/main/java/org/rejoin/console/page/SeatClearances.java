package org.rejoin.console.page;

import java.util.ArrayDeque;
import java.util.Deque;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.ConcurrentHashMap;
import java.util.concurrent.CopyOnWriteArrayList;

import org.rejoin.bridge.flight.Entry;

/** The clearances of a seat: which was issued, which is in force, what was heard of their readbacks. */
final class SeatClearances {

    private final List<Entry.Issued> issued = new CopyOnWriteArrayList<>();
    private final List<String> disregards = new CopyOnWriteArrayList<>();
    private final Map<Integer, PageRoom.Heard> heard = new ConcurrentHashMap<>();
    private final Map<Integer, Integer> again = new ConcurrentHashMap<>();
    private final Deque<Entry.Issued> inForce = new ArrayDeque<>();

    /** The clearance in force; on the flight's thread. */
    Optional<Entry.Issued> current() {
        return Optional.ofNullable(inForce.peek());
    }

    /** How many were issued; may be asked from any thread. */
    int count() {
        return issued.size();
    }

    /** A clearance of this flight by its number, 1 for the first issued; may be asked from any thread. */
    Optional<Entry.Issued> issued(int number) {
        return at(issued, number);
    }

    /** The number of the one in force; 0 where none is. On the flight's thread. */
    int inForce() {
        return current().map(this::numberOf).orElse(0);
    }

    /**
     * The number of the one that the route in force is of: the last that did not leave it as it was, by its first number
     * where it is in force again after another was taken back; 0 where none is. On the flight's thread.
     */
    int ofRoute() {
        return inForce.stream()
                .filter(each -> !each.clearance().routeStays())
                .findFirst()
                .map(each -> each.asBefore() ? firstNumberOf(each.clearance().text()) : numberOf(each))
                .orElse(0);
    }

    private int firstNumberOf(String words) {
        int at = 0;
        while (!issued.get(at).clearance().text().equals(words)) {
            at++;
        }
        return at + 1;
    }

    /** The number of a clearance that was issued; 0 where it was not. */
    int numberOf(Entry.Issued clearance) {
        return issued.lastIndexOf(clearance) + 1;
    }

    /** What was heard last for a clearance; may be asked from any thread. */
    Optional<PageRoom.Heard> heard(int number) {
        return Optional.ofNullable(heard.get(number));
    }

    /** Takes what was heard for a clearance; nothing counts yet. May be called on any thread. */
    void heard(int number, PageRoom.Heard now) {
        heard.put(number, now);
    }

    /** Counts that a clearance was asked for again; how often it was by now. On the flight's thread. */
    int again(int number) {
        return again.merge(number, 1, Integer::sum);
    }

    /** What the controller says when he takes a clearance back, for so many a time; may be asked from any thread. */
    Optional<String> disregarded(int number) {
        return at(disregards, number);
    }

    private static <T> Optional<T> at(List<T> all, int number) {
        return number >= 1 && number <= all.size() ? Optional.of(all.get(number - 1)) : Optional.empty();
    }

    /** Takes what the controller says when he takes one back; how often he has. */
    int disregard(String spoken) {
        disregards.add(spoken);
        return disregards.size();
    }

    /** The last, which left the route as it was, is taken back. */
    void beside() {
        inForce.pollFirst();
    }

    /** None is in force any more. */
    void none() {
        inForce.clear();
    }

    /** Takes a clearance that is in force now. */
    void take(Entry.Issued fresh) {
        inForce.push(fresh);
        issued.add(fresh);
    }
}
