// SPDX-License-Identifier: MIT
// 10 000 generated prescriptions: every total of a schedule equals a second, naive simulation that
// does the programme: every day, session, exercise, side, set, repetition and phase, one after the
// other, with counters. It shares no arithmetic with dose/; only which exercise is due on which day
// is taken from the calendar. The low ends are those of the prescription with nothing but low ends.
#include <catch2/catch.hpp>

#include <array>
#include <random>
#include <string>
#include <vector>

#include "dose/schedule.h"

namespace {

using namespace tickleaf;
using namespace tickleaf::dose;
using prescription::Dose;
using prescription::ExerciseLine;
using prescription::Prescription;
using support::Side;

const std::array<std::string, 4> kFamilies = {"calf", "thigh", "balance", ""};
std::size_t family_index(const std::string& id) {
    return static_cast<std::size_t>(id.back() - '0');
}

/// Ids are "sided-N" and "plain-N"; the number chooses the family.
struct Files : SidedExercises {
    bool has_sides(const std::string& id) const override { return id.starts_with("sided"); }
    std::string family(const std::string& id) const override {
        return kFamilies.at(family_index(id));
    }
};

class Generator {
  public:
    explicit Generator(unsigned seed) : random_(seed) {}

    Prescription prescription() {
        Prescription rx;
        rx.side = {number(0, 1) == 0 ? Side::Left : Side::Right, {}};
        int week = 1;
        const int stages = number(1, 3);
        for (int i = 0; i < stages; ++i) {
            prescription::Stage stage;
            stage.weeks = {week, week + number(0, 1)};
            week = stage.weeks.high + 1;
            stage.days_per_week = range(1, 7);
            const int lines = number(1, 4);
            for (int j = 0; j < lines; ++j) {
                stage.exercises.push_back(line());
            }
            rx.stages.push_back(std::move(stage));
        }
        return rx;
    }

  private:
    // Not std::uniform_int_distribution: its numbers differ between libraries.
    int number(int low, int high) {
        return low + static_cast<int>(random_() % static_cast<unsigned>(high - low + 1));
    }
    Range<int> range(int low, int high) {
        const int first = number(low, high);
        return {first, number(first, high)};
    }
    Range<Seconds> seconds(int low, int high) {
        const Range<int> both = range(low, high);
        return {{both.low}, {both.high}};
    }

    ExerciseLine line() {
        ExerciseLine line;
        const bool sided = number(0, 2) > 0;
        line.exercise.value = (sided ? "sided-" : "plain-") + std::to_string(number(0, 3));
        const bool each = sided && number(0, 3) == 0;
        if (sided && !each && number(0, 2) == 0) {
            line.side = support::Located<Side>{std::vector{Side::Left, Side::Right, Side::Both}.at(
                                                   static_cast<std::size_t>(number(0, 2))),
                                               {}};
        }
        Dose& dose = line.dose;
        dose.sets = range(1, 4);
        switch (number(0, 3)) {
        case 0:
            dose.content = prescription::Repetitions{range(1, 8), each};
            break;
        case 1:
            dose.content = prescription::Holds{seconds(1, 45), number(1, 3), each};
            break;
        case 2:
            dose.content = prescription::ToFatigue{number(1, 8), each};
            break;
        default:
            dose.content = prescription::TimeSpent{seconds(1, 600)};
        }
        dose.rest = seconds(0, 90);
        dose.per_day = range(1, 2);
        if (number(0, 1) == 0) {
            dose.days_per_week = range(1, 7);
        }
        if (number(0, 1) == 0) {
            prescription::Tempo tempo;
            for (int i = number(1, 4); i > 0; --i) {
                tempo.steps.push_back({prescription::TempoPhase::Lift, {number(1, 3)}, false});
            }
            line.tempo = tempo;
        }
        return line;
    }

    std::mt19937 random_;
};

/// The low end of everything.
struct LowEnds {
    void operator()(prescription::Repetitions& set) const { set.count.high = set.count.low; }
    void operator()(prescription::Holds& set) const { set.length.high = set.length.low; }
    void operator()(prescription::TimeSpent& set) const { set.length.high = set.length.low; }
    void operator()(prescription::ToFatigue& set) const { set.at_most = 1; }
};
Prescription at_low_ends(Prescription rx) {
    for (auto& stage : rx.stages) {
        stage.days_per_week.high = stage.days_per_week.low;
        for (ExerciseLine& line : stage.exercises) {
            Dose& dose = line.dose;
            dose.sets.high = dose.sets.low;
            dose.rest.high = dose.rest.low;
            dose.per_day.high = dose.per_day.low;
            if (dose.days_per_week) {
                dose.days_per_week->high = dose.days_per_week->low;
            }
            std::visit(LowEnds{}, dose.content);
        }
    }
    return rx;
}

std::size_t place_of(Side side) {
    return side == Side::Left ? 0 : side == Side::Right ? 1 : 2;
}

/// What was done, counted one by one.
struct Counters {
    std::int64_t seconds = 0;
    std::int64_t sessions = 0;
    std::int64_t days = 0;
    std::array<std::int64_t, 4> tension_of_family{}, count_of_family{}; // as in kFamilies
    std::array<std::int64_t, 4> repetitions{}, holds{};                 // by side
    std::array<std::int64_t, 4> count_of_line{}, tension_of_line{}, days_of_line{};
};

/// Does exercises at the high ends of their doses.
class Patient {
  public:
    explicit Patient(const PlannedStage& stage) : stage_(&stage) {}
    Counters counters;

    void do_day(const std::vector<std::size_t>& due) {
        counters.days += due.empty() ? 0 : 1;
        for (const std::size_t index : due) {
            ++counters.days_of_line[index];
        }
        for (int session = 1; session <= 24; ++session) {
            std::vector<std::size_t> now;
            for (const std::size_t index : due) {
                if (session <= stage_->exercises.at(index).dose.per_day.high) {
                    now.push_back(index);
                }
            }
            if (!now.empty()) {
                do_session(now);
            }
        }
    }

    void do_session(const std::vector<std::size_t>& due) {
        ++counters.sessions;
        for (std::size_t i = 0; i < due.size(); ++i) {
            counters.seconds += i == 0 ? 0 : 30; // change over
            do_exercise(due[i]);
        }
    }

  private:
    void do_exercise(std::size_t index) {
        const PlannedExercise& one = stage_->exercises.at(index);
        std::vector<Side> sides = {one.side};
        if (one.side == Side::Both) {
            sides = {Side::Left, Side::Right};
        }
        for (const Side side : sides) {
            for (int set = 0; set < one.dose.sets.high; ++set) {
                counters.seconds += set == 0 ? 0 : one.dose.rest.high.count;
                do_set(one, index, side);
            }
        }
    }

    void do_set(const PlannedExercise& one, std::size_t index, Side side) {
        if (const auto* time = std::get_if<prescription::TimeSpent>(&one.dose.content)) {
            spend(one, index, time->length.high.count);
        } else if (const auto* holds = std::get_if<prescription::Holds>(&one.dose.content)) {
            for (int i = 0; i < holds->count; ++i) {
                count(one, index, counters.holds[place_of(side)]);
                spend(one, index, holds->length.high.count);
            }
        } else {
            const auto* fixed = std::get_if<prescription::Repetitions>(&one.dose.content);
            const int times = fixed != nullptr
                                  ? fixed->count.high
                                  : std::get<prescription::ToFatigue>(one.dose.content).at_most;
            for (int i = 0; i < times; ++i) {
                count(one, index, counters.repetitions[place_of(side)]);
                do_repetition(one, index);
            }
        }
    }

    void do_repetition(const PlannedExercise& one, std::size_t index) {
        if (!one.tempo) {
            spend(one, index, 3);
            return;
        }
        for (const auto& step : one.tempo->steps) {
            spend(one, index, step.length.count);
        }
    }

    void spend(const PlannedExercise& one, std::size_t index, std::int64_t seconds) {
        counters.seconds += seconds;
        counters.tension_of_line[index] += seconds;
        counters.tension_of_family[family_index(one.exercise)] += seconds;
    }

    void count(const PlannedExercise& one, std::size_t index, std::int64_t& of_side) {
        ++of_side;
        ++counters.count_of_line[index];
        ++counters.count_of_family[family_index(one.exercise)];
    }

    const PlannedStage* stage_;
};

Schedule planned(const Prescription& rx) {
    support::Findings findings;
    auto schedule = plan(rx, Files(), findings);
    REQUIRE((schedule && findings.size() == 0));
    return std::move(*schedule);
}

/// The whole stage, day by day.
Counters walk(const Schedule& schedule, std::size_t stage) {
    Patient patient(schedule.stages.at(stage));
    for (const PlannedDay& day : schedule.days) {
        if (day.stage == stage) {
            patient.do_day(day.exercises);
        }
    }
    return patient.counters;
}

/// One day, and one session, with every exercise of the stage.
Counters full_day(const PlannedStage& stage, bool one_session) {
    std::vector<std::size_t> all;
    for (std::size_t i = 0; i < stage.exercises.size(); ++i) {
        all.push_back(i);
    }
    Patient patient(stage);
    if (one_session) {
        patient.do_session(all);
    } else {
        patient.do_day(all);
    }
    return patient.counters;
}

template <class T>
T pick(const Range<T>& range, bool high) {
    return high ? range.high : range.low;
}

/// One end of a stage's sums against what was counted.
/// The number of the first comparison that fails, 0 where none does: a million assertions would
/// cost more than the walk.
int compare(const PlannedStage& stage, const Schedule& walked, std::size_t index, bool high) {
    int compared = 0;
    int failed = 0;
    const auto same = [&](std::int64_t one, std::int64_t other) {
        ++compared;
        failed = failed == 0 && one != other ? compared : failed;
    };
    const PlannedStage& done_stage = walked.stages.at(index);
    const Counters done = walk(walked, index);
    const std::int64_t weeks = stage.weeks.high - stage.weeks.low + 1;
    same(pick(stage.week, high).count * weeks, done.seconds);
    same(pick(stage.sessions_week, high) * weeks, done.sessions);
    same(pick(stage.exercise_days, high) * weeks, done.days);
    same(pick(stage.day, high).count, full_day(done_stage, false).seconds);
    same(pick(stage.session, high).count, full_day(done_stage, true).seconds);
    const SideWork sides = weekly_counts(stage);
    for (const auto& [sums, counts] :
         {std::pair(&sides.repetitions, &done.repetitions), std::pair(&sides.holds, &done.holds)}) {
        same(pick(sums->left, high) * weeks, counts->at(place_of(Side::Left)));
        same(pick(sums->right, high) * weeks, counts->at(place_of(Side::Right)));
        same(pick(sums->no_side, high) * weeks, counts->at(place_of(Side::None)));
    }
    const std::vector<FamilyWork> families = weekly_work(stage);
    for (std::size_t family = 0; family < kFamilies.size(); ++family) {
        FamilyWork work;
        for (const FamilyWork& one : families) {
            work = one.family == kFamilies[family] ? one : work;
        }
        const bool known = !kFamilies[family].empty();
        same(pick(work.tension_seconds, high) * weeks, known ? done.tension_of_family[family] : 0);
        same(pick(work.repetitions, high) * weeks, known ? done.count_of_family[family] : 0);
    }
    for (std::size_t i = 0; i < stage.exercises.size(); ++i) {
        const ExerciseTotals& totals = stage.exercises[i].totals;
        const std::int64_t count = done.count_of_line.at(i);
        const Dose& dose = done_stage.exercises.at(i).dose;
        const std::int64_t times = done.days_of_line.at(i) * dose.per_day.high;
        same(done.days_of_line.at(i), weeks * done_stage.exercises[i].days_per_week.high);
        same(pick(totals.repetitions_stage, high), count);
        same(pick(totals.repetitions_week, high) * weeks, count);
        same(pick(totals.repetitions_session, high) * times, count);
        same(pick(totals.tension, high).count * times, done.tension_of_line.at(i));
    }
    return failed;
}

} // namespace

TEST_CASE("10 000 generated prescriptions come to what a patient would count") {
    constexpr int prescriptions = 10000;
    constexpr unsigned seed = 20260302;
    Generator generator(seed);
    std::int64_t seconds = 0;
    for (int i = 0; i < prescriptions; ++i) {
        INFO("seed " << seed << ", prescription " << i);
        const Prescription rx = generator.prescription();
        const Schedule schedule = planned(rx);
        const Schedule low = planned(at_low_ends(rx));
        for (std::size_t stage = 0; stage < schedule.stages.size(); ++stage) {
            REQUIRE(compare(schedule.stages[stage], schedule, stage, true) == 0);
            REQUIRE(compare(schedule.stages[stage], low, stage, false) == 0);
            seconds += schedule.stages[stage].week.high.count;
        }
    }
    CHECK(seconds > 0);
}
