// SPDX-License-Identifier: MIT
// How hard the booklet is to read. Where a language has no accepted formula that is said: a level
// made up would be worse than none.
#include "content/clinician.h"

namespace tickleaf::content {
namespace {

std::string said(Tongue& tongue, const ClinicianReading& reading) {
    if (!reading.report) {
        return tongue.say("clinician.reading_unmade", {{"language", reading.name}});
    }
    const ReadingReport& report = *reading.report;
    if (report.scores.empty()) {
        return tongue.say(report.counts.words < locale::kFewestWords ? "clinician.reading_short"
                                                                     : "clinician.reading_none",
                          {{"language", reading.name}});
    }
    const locale::ReadingScore& score = report.scores.front();
    return tongue.say(score.is_easy ? "clinician.reading_easy" : "clinician.reading_hard",
                      {{"language", reading.name},
                       {"formula", score.formula},
                       {"value", tongue.language().decimal(score.value, 1)}});
}

} // namespace

Words clinician_reading(Desk& desk, const std::vector<ClinicianReading>& readings) {
    return desk.voice.say_with("clinician.reading", [&](Tongue& tongue) {
        std::vector<std::string> levels;
        for (const ClinicianReading& reading : readings) {
            levels.push_back(said(tongue, reading));
        }
        return locale::Arguments{{"levels", tongue.joined(levels, "clinician.reading_next")}};
    });
}

} // namespace tickleaf::content
