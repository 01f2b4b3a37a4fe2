package org.rejoin.console.cli;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;

import org.rejoin.console.Browser;

import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.Timeout;

/** What the pages of a room say where somebody would go wrong. */
@Timeout(120)
class RoomPagesInBrowserTest extends RoomWithin {

    private static final String ALFA1 = "document.querySelector('[data-seat=s1]')";

    @Test
    void beforeALessonIsBegunHomeSaysThatTheAircraftIsFarFromItsStart() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (Aircraft alfa = new Aircraft("ALFA1", 39.2, 5);
                Browser home = new Browser(folder, 1280, 800)) {
            until(() -> !seat("ALFA1").isMissingNode());
            home.open(address() + "/");
            home.untilText("[data-seat=s1]", "NM from the start of the lesson");
            assertThat(home.text("[data-seat=s1]")).contains("put it there, or the clearance will not fit");
            assertThat(alfa.closed).isFalse();
            assertThat(home.complaints()).isEmpty();
        }
    }

    @Test
    void aDrillFromHereIsFlownByWhoIsTypedInPilot() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (Aircraft alfa = new Aircraft("ALFA1", 38.2, 5);
                Browser home = new Browser(folder, 1280, 800)) {
            begins("ALFA1", "Bo");
            order("end", "{\"seat\":\"s1\"}");
            until(() -> seat("ALFA1").path("stage").asText().equals("ended"));
            home.open(address() + "/");
            home.until(ALFA1 + " !== null && " + ALFA1 + ".querySelector('input').value === 'Bo'");
            home.value(ALFA1 + ".querySelector('input').id = 'who'");
            home.retype("#who", "Zoe New");
            home.value("[..." + ALFA1
                    + ".querySelectorAll('button')].find((b) => b.innerText === 'Drill from here').click()");
            home.untilText("[data-seat=s1]", "Zoe New flies Drill");
            // A drill is in no list: what is begun next is chosen first, and nothing is asked before.
            assertThat(home.text("[data-seat=s1] select")).startsWith("choose a lesson");
            home.until("[..." + ALFA1
                    + ".querySelectorAll('button')].find((b) => b.innerText.startsWith('Begin')).disabled");
            assertThat(alfa.closed).isFalse();
            assertThat(home.complaints()).isEmpty();
        }
    }

    @Test
    void aPilotWhoIsKnownIsNotTakenInAgainWithoutAWordAndALongNameIsNotCut() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        order("pilots", "{\"name\":\"Anna\"}");
        try (Browser home = new Browser(folder, 1280, 800)) {
            home.open(address() + "/");
            home.untilText("#pilots-title", "Pilots");
            home.type("#new-pilot", "anna");
            home.click("#add-pilot");
            home.untilText("section[aria-labelledby=pilots-title]", "Anna is known already.");
            home.type("#new-pilot", "x".repeat(81));
            home.click("#add-pilot");
            home.untilText("section[aria-labelledby=pilots-title]", "1 to 80 characters");
            assertThat(book.roster().pilots()).hasSize(1);
        }
    }

    @Test
    void onAPhoneNoWordIsBrokenAndWhatCannotBePressedLooksSo() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (Aircraft alfa = new Aircraft("ALFA1", 38.2, 5);
                Browser home = new Browser(folder, 390, 844)) {
            home.open(address() + "/");
            home.untilText(".seat-row", "Begin at ALFA1");
            assertThat(home.value(
                                    "[...document.querySelectorAll('.seat-row label')].map((label) => {"
                                            + " const words = document.createRange(); words.selectNodeContents(label.firstChild);"
                                            + " return words.toString().trim() + ' ' + words.getClientRects().length; }).join()")
                            .asText())
                    .isEqualTo("Pilot 1,Lesson 1");
            assertThat(home.value("(() => { const button = document.getElementById('add-pilot'); const look = () => {"
                                    + " const style = getComputedStyle(button); return style.color + style.borderColor; };"
                                    + " const before = look(); button.disabled = true; return look() === before; })()")
                            .asBoolean())
                    .isFalse();
            // Two lines of words have room within the button's border.
            assertThat(home.value("(() => { const button = document.getElementById('add-pilot');"
                                    + " button.style.width = '4rem'; button.textContent = 'two lines'; const words ="
                                    + " document.createRange(); words.selectNodeContents(button); return"
                                    + " button.clientHeight - words.getBoundingClientRect().height; })()")
                            .asDouble())
                    .isGreaterThan(5);
            assertThat(alfa.closed).isFalse();
        }
    }

    @Test
    void aPilotWhoIsRenamedIsCalledSoAtHisSeatAtOnce() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        order("pilots", "{\"name\":\"Bo\"}");
        try (Aircraft alfa = new Aircraft("ALFA1", 38.2, 5);
                Browser home = new Browser(folder, 1280, 800)) {
            begins("ALFA1", "Anna");
            String id = seat("ALFA1").path("pilot_id").asText();
            home.open(address() + "/");
            home.untilText(".seat-row", "Anna flies");
            home.press("#ask-name-" + id);
            home.until("document.activeElement.id === 'name-" + id + "'");
            home.retype("#name-" + id, "bo");
            home.key("Enter");
            home.untilText("section[aria-labelledby=pilots-title]", "another pilot is called Bo already");
            home.retype("#name-" + id, "Anneke");
            home.key("Enter");
            home.untilText(".seat-row", "Anneke flies");
            home.untilText("section[aria-labelledby=pilots-title]", "Anneke");
            home.untilText("section[aria-labelledby=last-title]", "Anneke");
            home.until("document.activeElement.id === 'ask-name-" + id + "'");
            assertThat(seat("ALFA1").path("stage").asText()).isEqualTo("flying");
            assertThat(alfa.closed).isFalse();
        }
    }

    @Test
    void whatIsLookedForAndWhoIsChosenAreThereAgainAfterAReload() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        order("pilots", "{\"name\":\"Anna\"}");
        try (Browser page = new Browser(folder, 1280, 800)) {
            page.open(address() + "/book");
            page.until("document.getElementById('find') !== null");
            page.type("#find", "Bo");
            page.until("location.search === '?find=Bo'");
            page.untilText("p[role=status]", "nothing in the record book");
            page.open(page.value("location.href").asText());
            page.until("document.getElementById('find')?.value === 'Bo'");
            for (String of : List.of("progress", "drill")) {
                page.open(address() + "/" + of + "?pilot=anna");
                page.until("document.getElementById('whose')?.selectedOptions[0].innerText === 'Anna'");
            }
        }
    }

    @Test
    void beforeALessonIsDrawnItsMapIsAsLightAsThePage() throws Exception {
        Assumptions.assumeTrue(Browser.installed().isPresent(), "no Chromium on this machine");
        try (Browser page = new Browser(folder, 1280, 800)) {
            page.open(address() + "/prepare");
            page.untilText("#lesson-title", "The lesson");
            page.click("#theme");
            for (String canvas : List.of("plan", "corridor", "heading", "height")) {
                // Read from a copy: the browser complains of a canvas that is drawn and read many times.
                page.until("""
                        (() => {
                            const drawn = document.getElementById('%s');
                            const copy = document.createElement('canvas').getContext('2d');
                            if (drawn.width === 0) return false;
                            copy.drawImage(drawn, drawn.width >> 1, drawn.height >> 1, 1, 1, 0, 0, 1, 1);
                            return copy.getImageData(0, 0, 1, 1).data[0] > 200;
                        })()""".formatted(canvas));
            }
            assertThat(page.complaints()).isEmpty();
        }
    }
}
