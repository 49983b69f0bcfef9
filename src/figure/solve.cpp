// SPDX-License-Identifier: MIT
#include "figure/solve.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "figure/authored.h"
#include "figure/balance.h"
#include "figure/band.h"
#include "figure/contacts.h"
#include "figure/mirror.h"
#include "figure/room.h"
#include "figure/settle.h"
#include "support/number.h"

namespace tickleaf::figure {
namespace {

using support::Findings;
using support::Side;

constexpr double kLeastStature = 1000; // mm
constexpr double kMostStature = 2300;
constexpr double kBalanceMargin = 12; // mm the centre of mass is asked to be inside the base
constexpr double kHiddenGain = 0.01;  // of a pose without a picture
constexpr int kPathSteps = 3;
constexpr int kPathParts = 6;
constexpr double kPathEnough = 1.0; // about a millimetre in all contacts together
constexpr double kPathDamping = 1e-3;
constexpr double kPathGain = 0.03; // an arrow needs no more
constexpr double kAuthoredSigma =
    1.5; // degrees an authored angle may stray at the cost of 1 mm of a contact
constexpr double kArmsDown = 6;     // degrees that arms beside a lying body slope to the floor
constexpr double kGazeShare = 0.85; // of a forward lean that the neck makes up for

bool same_part(const Contact& a, const Contact& b) {
    return a.part == b.part && (a.right == b.right || !a.part->paired);
}

/// Solves the poses of one exercise one after the other, for the right limb as the working one.
class Solver {
  public:
    Solver(const Exercise::Impl& impl, const Request& request, Findings& findings)
        : impl_(impl),
          request_(request),
          findings_(findings),
          stature_(request.stature_mm),
          props_(place_props(impl, request.stature_mm, request.step_height_mm)) {}

    std::optional<Solution> run() {
        start();
        for (std::size_t i = 0; i < impl_.poses.size(); ++i) {
            next_pose(i);
        }
        solve_band();
        if (findings_.has_errors()) {
            return std::nullopt;
        }
        make_scene();
        return std::move(solution_);
    }

  private:
    bool is_right_right() const { return request_.side != Side::Left; }

    void start() {
        const StartPosition& start = *impl_.start;
        wish_.fill(0.0);
        wish_[kRootY] = start.height * stature_;
        wish_[kRootPitch] = start.pitch;
        wish_[kRootRoll] = start.roll;
        for (const Setting& setting : start.settings) {
            wish_[setting.dof] = setting.degrees;
            if (limb_of(setting.dof) == 1) {
                wish_[setting.dof - kLimbDofs] = setting.degrees;
            }
        }
        // Half-kneeling: the other knee is on the floor, the working foot in front.
        if (start.word == "half-kneeling") {
            wish_[limb_dof(0, kHipFlexion)] = 0;
            wish_[limb_dof(0, kKneeFlexion)] = 92;
            wish_[limb_dof(0, kAnkleDorsiflexion)] = -45;
        }
        for (const PropSpec& spec : impl_.props) {
            hold(spec.site);
        }
        if (impl_.band && impl_.band->round) {
            hold(PropSite::BothHands);
        }
        for (const std::string_view text : start.contacts) {
            for (const Contact& contact : read_contact(text, impl_.span, findings_)) {
                contacts_.push_back({contact, false});
            }
        }
    }

    /// Fingers close round what is held.
    void hold(PropSite site) {
        constexpr double kGrip = 80;
        if (is_held(site)) {
            fingers_[0] = site == PropSite::WorkHand ? fingers_[0] : kGrip;
            fingers_[1] = site == PropSite::OtherHand ? fingers_[1] : kGrip;
        }
    }

    void next_pose(std::size_t i) {
        const KeyPose& pose = impl_.poses[i];
        change_contacts(pose);
        if (i == 0) {
            climb();
        }
        apply_settings(pose);
        look_ahead();
        Problem problem = make_problem(i);
        const Posture from = i == 0 ? wish_ : postures_.back();
        const Posture solved = settle(problem, wish_, from);
        if (i > 0 && is_traced(i)) {
            trace(i, problem, from, solved);
        }
        keep(i, problem, solved);
        wish_ = solved;
    }

    /// Who starts with the feet on a step stands higher by it.
    void climb() {
        const bool on_step =
            std::any_of(contacts_.begin(), contacts_.end(), [](const ActiveContact& active) {
                return active.contact.place == Place::Step && active.contact.part->word == "ball";
            });
        if (on_step && impl_.start->word == "standing") {
            wish_[kRootY] += find_prop(props_, Prop::Kind::Step)->height;
        }
    }

    /// The way to a pose is asked for by an arrow of it or of the next picture, or by a band.
    bool is_traced(std::size_t i) const {
        if (impl_.band && !impl_.band->round) {
            return true;
        }
        while (i + 1 < impl_.poses.size() && !impl_.poses[i].has_panel && !impl_.poses[i].begins) {
            ++i;
        }
        return !impl_.poses[i].arrows.empty();
    }

    void change_contacts(const KeyPose& pose) {
        for (ActiveContact& active : contacts_) {
            active.carried = !postures_.empty();
        }
        std::erase_if(contacts_, [&pose](const ActiveContact& active) {
            const auto is_named = [&active](const auto& name) {
                return name.part == active.contact.part &&
                       (name.right == active.contact.right || !name.part->paired);
            };
            return std::any_of(pose.releases.begin(), pose.releases.end(), is_named) ||
                   std::any_of(
                       pose.contacts.begin(), pose.contacts.end(),
                       [&active](const Contact& c) { return same_part(c, active.contact); });
        });
        for (const Contact& contact : pose.contacts) {
            contacts_.push_back({contact, false});
            for (const Setting& setting : usual_arm(contact, props_)) {
                if (!authored_[setting.dof]) {
                    wish_[setting.dof] = setting.degrees;
                }
            }
        }
    }

    void apply_settings(const KeyPose& pose) {
        for (const Setting& setting : pose.settings) {
            wish_[setting.dof] = setting.degrees;
            authored_[setting.dof] = true;
        }
        for (const Fingers& hand : pose.fingers) {
            fingers_[hand.right] = hand.flexion;
        }
        for (const Setting& setting : pose.root) {
            wish_[setting.dof] +=
                setting.dof <= kRootZ ? setting.degrees * stature_ : setting.degrees;
        }
        for (std::size_t dof = kTrunkFlexion; dof < kDofs; ++dof) {
            wish_[dof] = std::clamp(wish_[dof], dof_info(dof).low, dof_info(dof).high);
        }
    }

    /// Gaze level and free arms hanging, as far as the file does not say otherwise.
    void look_ahead() {
        if (impl_.start->word == "lying-on-back") {
            rest_on_floor();
        }
        if (!impl_.start->upright) {
            return;
        }
        const double lean = wish_[kTrunkFlexion] - wish_[kRootPitch];
        if (!authored_[kNeckFlexion]) {
            wish_[kNeckFlexion] = std::clamp(-kGazeShare * lean, -50.0, 40.0);
        }
        for (std::size_t right = 0; right < 2; ++right) {
            const std::size_t shoulder = limb_dof(right, kShoulderFlexion);
            if (!authored_[shoulder] && !has_hand(right) && impl_.start->word != "sitting") {
                wish_[shoulder] = std::clamp(lean + 2, -30.0, 120.0);
            }
        }
    }

    /// Arms and head of a body on its back lie on the floor, however the trunk slopes.
    void rest_on_floor() {
        if (!authored_[kNeckFlexion] && has_head()) {
            wish_[kNeckFlexion] = std::clamp(wish_[kRootPitch] - 90.0, -30.0, 50.0);
        }
        for (std::size_t right = 0; right < 2; ++right) {
            const std::size_t shoulder = limb_dof(right, kShoulderFlexion);
            if (!authored_[shoulder] && !has_hand(right)) {
                wish_[shoulder] = std::clamp(90.0 - wish_[kRootPitch] - kArmsDown, -45.0, 20.0);
            }
        }
    }

    bool has_hand(std::size_t right) const {
        return std::any_of(contacts_.begin(), contacts_.end(),
                           [right](const ActiveContact& active) {
                               const std::string_view word = active.contact.part->word;
                               return active.contact.right == right &&
                                      (word == "hand" || word == "elbow" || word == "forearm");
                           });
    }

    bool has_head() const {
        return std::any_of(contacts_.begin(), contacts_.end(), [](const ActiveContact& active) {
            return active.contact.part->word == "head";
        });
    }

    bool has_toes(std::size_t right) const {
        return std::any_of(
            contacts_.begin(), contacts_.end(), [right](const ActiveContact& active) {
                return active.contact.right == right && active.contact.part->word == "toe";
            });
    }

    Problem make_problem(std::size_t i) const {
        const KeyPose& pose = impl_.poses[i];
        Problem problem;
        problem.stature = stature_;
        problem.prior = wish_;
        problem.sigma = usual_sigma(stature_);
        for (std::size_t dof = kTrunkFlexion; dof < kDofs; ++dof) {
            if (authored_[dof]) {
                problem.sigma[dof] = kAuthoredSigma;
            }
        }
        for (std::size_t right = 0; right < 2; ++right) {
            if (!has_hand(right)) {
                for (std::size_t dof = kShoulderFlexion; dof < kLimbDofs; ++dof) {
                    problem.sigma[limb_dof(right, dof)] = 0.0;
                }
            }
            if (!has_toes(right)) {
                problem.sigma[limb_dof(right, kToeExtension)] = 0.0;
            }
        }
        if (!has_head()) {
            problem.sigma[kNeckFlexion] = problem.sigma[kNeckBend] = problem.sigma[kNeckRotation] =
                0.0;
        }
        const Body* before = solution_.poses.empty() ? nullptr : &canonical_.back();
        add_contacts(problem, contacts_, props_, before);
        problem.balances = !impl_.facts.passing && !pose.passing;
        problem.balance_margin = kBalanceMargin;
        problem.least_gain = pose.has_panel ? problem.least_gain : kHiddenGain;
        return problem;
    }

    /// Checks a solved pose and keeps it with its angles and contacts.
    void keep(std::size_t i, const Problem& problem, const Posture& posture) {
        SolvedPose pose;
        pose.passing = !problem.balances;
        pose.body = pose_body(posture, stature_);
        pose.body.fingers = fingers_;
        add_contact_results(pose, problem);
        add_angles(pose, posture);
        pose.centre_of_mass = centre_of_mass(pose.body);
        pose.balance_margin_mm = balance_margin(pose.body, problem.support, pose.centre_of_mass);
        const support::Span& span = impl_.poses[i].span;
        const std::string which = "pose " + std::to_string(i + 1);
        if (problem.balances && pose.balance_margin_mm < 0.0) {
            findings_.error(span, "figure-balance",
                            which + " falls over: the centre of mass is " +
                                support::fixed(-pose.balance_margin_mm, 0) +
                                " mm outside the base of support",
                            "change the angles, add a contact, or write passing: true");
        }
        if (const double depth = deepest_intrusion(problem, pose.body); depth > kMostMiss) {
            findings_.error(span, "figure-intrusion",
                            which + " puts the body " + support::fixed(depth, 0) +
                                " mm into the floor or a prop",
                            "change the angles or move the prop");
        }
        canonical_.push_back(pose.body);
        postures_.push_back(posture);
        movement_.push_back(pose.body);
        solution_.poses.push_back(std::move(pose));
    }

    void add_contact_results(SolvedPose& pose, const Problem& problem) {
        std::vector<double> misses(contacts_.size(), 0.0);
        std::vector<double> slides(contacts_.size(), 0.0);
        for (const Goal& goal : problem.goals) {
            if (goal.contact >= 0) {
                const double d = miss(goal, pose.body);
                double& worst =
                    (goal.stays ? slides : misses).at(static_cast<std::size_t>(goal.contact));
                worst = std::max(worst, std::abs(d));
            }
        }
        for (std::size_t c = 0; c < contacts_.size(); ++c) {
            const std::string name = contact_name(contacts_[c].contact, is_right_right());
            if (!(misses[c] <= kMostMiss)) {
                findings_.error(contacts_[c].contact.span, "figure-contact",
                                "the contact " + name + " is missed by " +
                                    support::fixed(misses[c], 0) + " mm at a stature of " +
                                    support::fixed(stature_ / 10, 0) + " cm",
                                "bring the prop nearer or change the angles");
            }
            if (!(slides[c] <= kMostSlide)) {
                findings_.error(contacts_[c].contact.span, "figure-slide",
                                "the contact " + name + " slides by " +
                                    support::fixed(slides[c], 0) + " mm from the pose before",
                                "release it, or change the angles so that it can stay");
            }
            pose.contacts.push_back({name, misses[c]});
        }
    }

    static void add_angles(SolvedPose& pose, const Posture& posture) {
        pose.angles.reserve(2 * (kDofs - kTrunkFlexion));
        for (std::size_t dof = kTrunkFlexion; dof < kDofs; ++dof) {
            const DofInfo& info = dof_info(dof);
            const int limb = limb_of(dof);
            const Side side = limb < 0 ? Side::None : (limb == 1 ? Side::Right : Side::Left);
            pose.angles.push_back(
                {std::string(info.joint), std::string(info.positive), side, posture[dof]});
            pose.angles.push_back(
                {std::string(info.joint), std::string(info.negative), side, 0.0 - posture[dof]});
        }
    }

    /// Follows the movement between two poses: angles run evenly, contacts that stay are held.
    void trace(std::size_t i, const Problem& target, const Posture& from, const Posture& to) {
        Problem problem = target;
        problem.balances = false;
        problem.enough = kPathEnough;
        problem.least_gain = kPathGain;
        problem.least_damping = kPathDamping;
        std::erase_if(problem.goals, [this](const Goal& goal) {
            return goal.contact < 0 ||
                   !contacts_.at(static_cast<std::size_t>(goal.contact)).carried;
        });
        std::vector<Body> bodies{canonical_.back()};
        for (int part = 1; part < kPathParts; ++part) {
            const double t = static_cast<double>(part) / kPathParts;
            for (std::size_t dof = 0; dof < kDofs; ++dof) {
                problem.prior[dof] = from[dof] + t * (to[dof] - from[dof]);
            }
            const Posture solved = optimise(problem, problem.prior, kPathSteps);
            bodies.push_back(pose_body(solved, stature_));
        }
        bodies.push_back(pose_body(to, stature_));
        movement_.insert(movement_.end(), bodies.begin() + 1, bodies.end() - 1);
        paths_.resize(i + 1);
        paths_[i] = std::move(bodies);
    }

    void solve_band() {
        if (!impl_.band || impl_.band->round || findings_.has_errors()) {
            return;
        }
        band_ = set_up_band(*impl_.band, request_, movement_, findings_);
        if (!band_) {
            return;
        }
        solution_.band_setup_mm = band_->setup_mm;
        for (SolvedPose& pose : solution_.poses) {
            pose.bands.push_back(band_result(*impl_.band, *band_, pose.body, request_));
        }
    }

    void make_scene() {
        Scene& scene = solution_.scene;
        scene.exercise = impl_.facts.id;
        scene.side = request_.side;
        scene.view = impl_.view;
        scene.near_side = impl_.other_side_near ? Side::Left : Side::Right;
        scene.working = impl_.working;
        add_standing_props(scene);
        std::optional<Body> shown;
        for (std::size_t i = 0; i < impl_.poses.size(); ++i) {
            if (impl_.poses[i].has_panel) {
                add_panel(i, shown);
            }
            if (is_shown(i)) {
                shown = canonical_[i];
            }
        }
    }

    /// What does not move with the body.
    void add_standing_props(Scene& scene) const {
        for (const Prop& prop : props_) {
            const bool moves =
                prop.kind == Prop::Kind::Ball ||
                std::any_of(impl_.props.begin(), impl_.props.end(), [&prop](const PropSpec& spec) {
                    return spec.kind == prop.kind && is_held(spec.site);
                });
            if (!moves) {
                scene.props.push_back(prop);
            }
        }
        if (band_ && band_->anchor && impl_.band->anchor_on) {
            scene.props.push_back(
                at_anchor(*impl_.band->anchor_on, *impl_.band->anchor, *band_->anchor));
        }
    }

    void add_moving_props(Panel& panel) const {
        for (const PropSpec& spec : impl_.props) {
            if (is_held(spec.site)) {
                panel.props.push_back(held_prop(spec, panel.body));
            } else if (spec.kind == Prop::Kind::Ball) {
                panel.props.push_back(
                    rolled_ball(*find_prop(props_, Prop::Kind::Ball), panel.body, 1));
            }
        }
    }

    void add_panel(std::size_t i, const std::optional<Body>& shown) {
        const KeyPose& pose = impl_.poses[i];
        Panel panel;
        panel.body = canonical_[i];
        panel.view = pose.view;
        if (pose.has_ghost) {
            panel.ghost = shown;
        }
        add_moving_props(panel);
        if (impl_.band && (band_ || impl_.band->round)) {
            panel.bands = band_lines(*impl_.band, band_.value_or(BandSetup{}), panel.body);
        }
        for (const Landmark landmark : pose.arrows) {
            MovementArrow arrow{path_to(i, landmark), false};
            if (arrow.path.size() < 2) {
                continue;
            }
            if (pose.about) {
                turn_about(arrow, path_to(i, *pose.about));
            }
            panel.arrows.push_back(arrow);
            if (pose.return_arrow) {
                std::reverse(arrow.path.begin(), arrow.path.end());
                arrow.is_return = true;
                panel.arrows.push_back(std::move(arrow));
            }
        }
        if (pose.hold) {
            panel.hold_seconds = request_.hold_seconds;
        }
        panel.repeats = pose.repeats;
        add_press(panel, pose);
        if (pose.close_up) {
            solution_.scene.details.push_back(
                {solution_.scene.panels.size(), panel.body.at(pose.close_up->centre),
                 pose.close_up->radius * stature_, pose.close_up->view});
        }
        solution_.scene.panels.push_back(std::move(panel));
    }

    void add_press(Panel& panel, const KeyPose& pose) const {
        if (!pose.press) {
            return;
        }
        Point3 at = panel.body.at(pose.press->at);
        Point3 to = pose.press->towards;
        if (pose.press->against == Prop::Kind::Wall) {
            // Where the limb meets the wall, not where its bones lie.
            const Surface wall = surface_of(Place::Wall, props_);
            (wall.axis == Axis::X ? at.x : at.z) = wall.value;
            const Point3 front = front_of(*find_prop(props_, Prop::Kind::Wall));
            to = {0.0 - front.x, 0.0, 0.0 - front.z};
        }
        panel.press_at.push_back(at);
        panel.press_to.push_back(to);
        panel.push_seconds = request_.hold_seconds;
    }

    /// The path as it is seen from a point that moves itself.
    static void turn_about(MovementArrow& arrow, const std::vector<Point3>& pivot) {
        for (std::size_t k = 0; k < arrow.path.size() && k < pivot.size(); ++k) {
            arrow.path[k].x += pivot.back().x - pivot[k].x;
            arrow.path[k].y += pivot.back().y - pivot[k].y;
            arrow.path[k].z += pivot.back().z - pivot[k].z;
        }
        arrow.about = pivot.back();
    }

    /// In a picture of its own, or as where the next picture begins.
    bool is_shown(std::size_t i) const { return impl_.poses[i].has_panel || impl_.poses[i].begins; }

    /// The way of a landmark since the last pose that is shown.
    std::vector<Point3> path_to(std::size_t i, Landmark landmark) const {
        std::size_t first = i;
        while (first > 0 && (first == i || !is_shown(first))) {
            --first;
        }
        std::vector<Point3> path;
        for (std::size_t k = first + 1; k <= i && k < paths_.size(); ++k) {
            for (std::size_t b = path.empty() ? 0 : 1; b < paths_[k].size(); ++b) {
                path.push_back(paths_[k][b].at(landmark));
            }
        }
        return path;
    }

    const Exercise::Impl& impl_;
    const Request& request_;
    Findings& findings_;
    double stature_;
    std::vector<Prop> props_;
    Posture wish_{};
    std::array<bool, kDofs> authored_{};
    std::array<double, 2> fingers_{};
    std::vector<ActiveContact> contacts_;
    std::vector<Posture> postures_;
    std::vector<Body> canonical_;
    std::vector<Body> movement_;
    std::vector<std::vector<Body>> paths_;
    std::optional<BandSetup> band_;
    Solution solution_;
};

bool is_usable(const Request& request, const Exercise::Impl& impl, Findings& findings) {
    if (!(request.stature_mm >= kLeastStature && request.stature_mm <= kMostStature)) {
        findings.error(impl.span, "figure-stature", "the stature is outside 100 to 230 cm",
                       "give the patient's height in cm");
        return false;
    }
    if (request.step_height_mm &&
        !(*request.step_height_mm >= 20 && *request.step_height_mm <= 500)) {
        findings.error(impl.span, "figure-step", "the step's height is outside 2 to 50 cm",
                       "give the step's height in cm");
        return false;
    }
    return true;
}

} // namespace

std::optional<Solution> solve(const Exercise& exercise, const Request& request,
                              Findings& findings) {
    support::internal_error_if(!exercise.impl, "an exercise without content");
    const Exercise::Impl& impl = *exercise.impl;
    if (!is_usable(request, impl, findings)) {
        return std::nullopt;
    }
    Findings own;
    std::optional<Solution> solution = Solver(impl, request, own).run();
    for (const support::Finding& finding : own.all()) {
        findings.add(finding);
    }
    if (solution && request.side == Side::Left) {
        return mirrored(std::move(*solution));
    }
    return solution;
}

} // namespace tickleaf::figure
