package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.concurrent.TimeUnit;

import org.rejoin.console.Browser;
import org.rejoin.console.lesson.LessonReader;
import org.rejoin.console.practice.Habit;

import com.fasterxml.jackson.databind.JsonNode;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** All who fly on one map, and who may see whom there: the real program, a real browser. */
@Timeout(value = 5, unit = TimeUnit.MINUTES)
@SuppressWarnings("try") // a program is held, not used
class RoomMapInBrowserTest extends RealRoom {

    private static final String ON_MAP = "import('/model.js').then((m) => [...m.model.seats.values()]";

    /** Miles from one aircraft to another, as the map has them. */
    private static double apartNm(Browser desk) throws Exception {
        return desk.value(
                        ON_MAP
                                + ".filter((s) => s.name !== 's3').map((s) => s.now)).then(([a, b]) => Math.hypot(a[1] - b[1], a[2] - b[2]))")
                .asDouble();
    }

    @Test
    void whoFliesIsOnOneMapAndAPilotSeesHimselfUntilTheRoomIsShown() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (RealProgram program = room();
                Simulator one = new Simulator(feed, 20).fly(LessonReader.read("radial-outbound"), Habit.GOOD);
                Browser desk = new Browser(folder, 1280, 800);
                Browser tablet = new Browser(folder, 1024, 768)) {
            desk.open(address() + "/live");
            desk.untilText(".tiles", "REJOIN1");
            try (Simulator two = new Simulator(feed, 20).fly(LessonReader.read("heading-to-airway"), Habit.LATE);
                    Simulator three = new Simulator(feed, 20).fly(LessonReader.read("radial-inbound"), Habit.GOOD)) {
                desk.until(ON_MAP + ".filter((s) => s.now).length === 3)");
                // One without a lesson is on the map too.
                desk.post("/api/assign", "{\"seat\":\"s1\",\"pilot\":\"Anna\",\"lesson\":\"radial-outbound\"}");
                desk.post("/api/assign", "{\"seat\":\"s2\",\"pilot\":\"Bert\",\"lesson\":\"heading-to-airway\"}");
                desk.until(ON_MAP + ".map((s) => s.label).join()).then((n) => n.startsWith('Anna,Bert,'))");
                desk.until("import('/model.js').then((m) => m.model.hello.filed.length >= 2"
                        + " && m.model.hello.points.some((p) => p[0] === 'PTL'))");
                desk.until(ON_MAP + ".every((s) => s.rows.length > 3))");
                desk.picture("room-live-map-1280");

                // Silent: it is said on the map too, and its last place stays.
                three.silent(true);
                desk.until("import('/model.js').then((m) => m.isOld(m.model.seats.get('s3')))");
                three.silent(false);

                // By keyboard: closer, and measured from the middle to the middle.
                desk.value("document.getElementById('plan').focus()");
                desk.key("+");
                desk.key("m");
                desk.key("Enter");
                desk.key("ArrowLeft");
                desk.key("Enter");
                desk.untilText("#measured", "NM, ");
                desk.key("m");
                desk.key("a");

                isATablet(desk, tablet);

                // An aircraft that is pressed opens its seat.
                desk.size(1280, 800);
                desk.open(address() + "/map");
                desk.until(ON_MAP + ".length === 3)");
                Thread.sleep(300);
                JsonNode at = desk.value(
                        "Promise.all([import('/model.js'), import('/room-map.js')]).then(([m, r]) => { const c = document.getElementById('plan').getBoundingClientRect(),"
                                + " v = r.shown().view, n = m.model.seats.get('s2').now; return [c.left + v.px(n[1]), c.top + v.py(n[2])]; })");
                desk.press(at.get(0).asDouble(), at.get(1).asDouble());
                desk.until("location.pathname === '/seat' && location.search === '?s=s2'");
                // On a tablet that lies down the map stands beside the tiles, and nothing hangs out.
                desk.size(1024, 768);
                desk.open(address() + "/live");
                desk.until(ON_MAP + ".filter((s) => s.now).length === 3)");
                assertThat(desk.value("document.documentElement.scrollWidth <= innerWidth"
                                        + " && document.documentElement.scrollHeight <= innerHeight"
                                        + " && document.getElementById('plan').getBoundingClientRect().left > 300")
                                .asBoolean())
                        .isTrue();
                desk.picture("room-live-map-1024");
                assertThat(desk.complaints()).isEmpty();
            }
        }
    }

    /** Anna's: herself, then all, then nobody whose place is hidden. */
    private void isATablet(Browser desk, Browser tablet) throws Exception {
        String code = Ran.json(desk.post("/api/code", "{\"pilot\":\"Anna\"}"))
                .path("code")
                .asText();
        tablet.open(address() + "/enter#" + code);
        tablet.untilText("#strip", "Anna");
        tablet.open(address() + "/map");
        tablet.until(ON_MAP + ".map((s) => s.name).join()).then((n) => n === 's1')");
        tablet.untilText("#app", "You see your own aircraft");
        assertThat(tablet.text("#app")).doesNotContain("Bert");
        desk.post("/api/shown", "{\"visible\":true}");
        tablet.until(ON_MAP + ".map((s) => s.name).join()).then((n) => n === 's1,s2,s3')");
        tablet.untilText("#app", "Bert");
        tablet.picture("room-map-pilot-1024");
        assertThat(apartNm(tablet)).isPositive();
        // A drill in finding out where one is: the map does not tell either.
        desk.value(
                "fetch('/order', {method: 'POST', headers: {'Content-Type': 'application/json'}, body:"
                        + " JSON.stringify({show: 's1', do: 'show', what: 'position', visible: false})}).then((r) => r.json())");
        tablet.until(ON_MAP + ".map((s) => s.name).join()).then((n) => n === 's2,s3')");
        desk.until(ON_MAP + ".length === 3)");
        desk.post("/api/shown", "{\"visible\":false}");
        tablet.until(ON_MAP + ".length === 0)");
    }
}
