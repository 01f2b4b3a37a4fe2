package org.rejoin.bridge.route;

import java.util.Locale;
import java.util.Optional;

import org.rejoin.bridge.chart.Station;
import org.rejoin.bridge.geo.Position;

/** Whether the stations of a clearance are used inside their service volumes. */
final class VolumesUsed {

    private VolumesUsed() {}

    /** Off published routes only; the leg along the airway is not meant (Aeronautical Information Manual 1-1-8 c). */
    static void along(AmendmentDraft draft, Station station, double distanceNm) {
        FixDefinitions.serviceRadiusNm(station, draft.altitudeFt()).stream()
                .filter(radius -> distanceNm > radius)
                .forEach(radius -> draft.warn(
                        Warning.Code.OUT_OF_SERVICE_VOLUME,
                        "the clearance uses %s %.1f NM from the station; its standard service volume (class %s) %s %s",
                        station.ident(),
                        distanceNm,
                        station.serviceClass().map(Enum::name).orElse("?"),
                        radius > 0 ? String.format(Locale.ROOT, "ends at %.0f NM", radius) : "has no reach",
                        draft.atAltitude()));
    }

    /** Where a line is left is found by the station that the words name for it. */
    static void atEnd(AmendmentDraft draft, FlownLine line, Position end) {
        line.until()
                .flatMap(until -> until.fold(
                        at -> Optional.of(at.station()),
                        at -> Optional.of(at.station()),
                        at -> Optional.empty(),
                        at -> Optional.empty()))
                .filter(station -> !line.beginsAt(station))
                .ifPresent(station -> along(draft, station, station.position().distanceNm(end)));
    }
}
