package org.rejoin.console.page;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;

import org.rejoin.bridge.geo.Position;
import org.rejoin.bridge.geo.TrueDirection;
import org.rejoin.console.lesson.LessonReader;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import org.assertj.core.data.Offset;
import org.junit.jupiter.api.Test;

/** Where everybody is, on one plan. */
class RoomMapTest {

    private static final ObjectMapper JSON = new ObjectMapper();
    private static final Position HERE = new Position(38.2, -49.9);

    private final RoomMap map = new RoomMap();

    private static PageRoom.Seen seen(String seat, Position place, boolean jumped) {
        return new PageRoom.Seen(seat, "Anna", place, OptionalDouble.empty(), 120, 0.1, false, jumped, false);
    }

    private static List<JsonNode> messages(String text) throws Exception {
        List<JsonNode> all = new ArrayList<>();
        for (String line : text.split("\n", -1)) {
            if (line.startsWith("data: ")) {
                all.add(JSON.readTree(line.substring(6)));
            }
        }
        return all;
    }

    private static JsonNode said(String text, String kind) throws Exception {
        return messages(text).stream()
                .filter(each -> each.path("k").asText().equals(kind))
                .findFirst()
                .orElseThrow();
    }

    private boolean update(double timeS, Optional<RoutePicture> route, PageRoom.Seen... seen) {
        return map.update(List.of(seen), seat -> route, timeS);
    }

    @Test
    void beforeAnybodyIsHeardThereIsNothing() throws Exception {
        assertThat(said(map.whole(seat -> true), "nothing")).isNotNull();
        assertThat(map.news(seat -> true)).isEmpty();
    }

    @Test
    void withoutALessonThePlanLiesAroundWhoIsHeardFirst() throws Exception {
        assertThat(update(0, Optional.empty(), seen("s1", HERE, false))).isTrue();
        JsonNode now = said(map.whole(seat -> true), "rows").path("now");
        assertThat(now.get(1).asDouble()).isCloseTo(0, Offset.offset(0.001));
        assertThat(now.get(2).asDouble()).isCloseTo(0, Offset.offset(0.001));
    }

    /** Miles of the plan are true from its middle (azimuthal equidistant), and a track that is not sent is the way made good. */
    @Test
    void tenMilesEastAreTenMilesToTheRight() throws Exception {
        update(0, Optional.empty(), seen("s1", HERE, false));
        Position there = HERE.destination(new TrueDirection(90), 10);
        assertThat(update(60, Optional.empty(), seen("s1", there, false))).isFalse();
        JsonNode now = said(map.news(seat -> true), "rows").path("now");
        assertThat(now.get(1).asDouble()).isCloseTo(10, Offset.offset(0.001));
        assertThat(now.get(3).asDouble()).isCloseTo(90, Offset.offset(0.1));
    }

    @Test
    void aJumpIsNoLine() throws Exception {
        update(0, Optional.empty(), seen("s1", HERE, false));
        update(5, Optional.empty(), seen("s1", HERE.destination(new TrueDirection(0), 30), true));
        JsonNode rows = said(map.whole(seat -> true), "rows").path("rows");
        assertThat(rows.get(rows.size() - 1).get(9).asInt()).isEqualTo(1);
    }

    @Test
    void aLessonNearbyLeavesTheMiddleAndOneInAnotherOceanMovesIt() throws Exception {
        RoutePicture lesson = new RoutePicture(LessonReader.read("radial-outbound"), () -> LocalDate.of(2026, 6, 1));
        PageRoom.Seen near = seen("s1", HERE, false);
        update(0, Optional.empty(), near);
        JsonNode before = said(map.whole(seat -> true), "hello").path("centre");
        assertThat(update(1, Optional.of(lesson), near)).isTrue();
        JsonNode hello = said(map.whole(seat -> true), "hello");
        assertThat(hello.path("centre")).isEqualTo(before);
        assertThat(hello.path("filed")).isNotEmpty();
        assertThat(update(2, Optional.of(lesson), near)).as("the same again").isFalse();

        RoomMap other = new RoomMap();
        Position far = HERE.destination(new TrueDirection(180), 3_000);
        other.update(List.of(seen("s1", far, false)), seat -> Optional.empty(), 0);
        other.update(List.of(seen("s1", far, false)), seat -> Optional.of(lesson), 1);
        JsonNode moved = said(other.whole(seat -> true), "hello").path("centre");
        assertThat(moved.get(0).asDouble()).isCloseTo(lesson.centre().latitudeDeg(), Offset.offset(1e-9));
    }

    @Test
    void whoMayNotBeSeenIsNotTold() throws Exception {
        update(0, Optional.empty(), seen("s1", HERE, false), seen("s2", HERE, false));
        String text = map.whole(seat -> seat.equals("s2"));
        assertThat(text).doesNotContain("\"s1\"");
        assertThat(said(text, "here").path("seats")).hasSize(1);
    }

    @Test
    void aTrackThatIsThreeMinutesOldIsForgotten() throws Exception {
        for (int t = 0; t <= 400; t++) {
            update(t, Optional.empty(), seen("s1", HERE.destination(new TrueDirection(90), t / 30.0), false));
        }
        assertThat(said(map.whole(seat -> true), "rows").path("rows")).hasSize(181);
    }
}
