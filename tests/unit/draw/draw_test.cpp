// SPDX-License-Identifier: MIT
#include "draw/draw.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cmath>
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "draw/outline.h"
#include "draw/palette.h"
#include "draw/panel.h"
#include "hand_made.h"

namespace draw = tickleaf::draw;
namespace page = tickleaf::page;
namespace figure = tickleaf::figure;
namespace draw_test = tickleaf::draw_test;
using draw::Box;

using draw_test::heel_raise;
using draw_test::knee_straighten;
using draw_test::mirrored;
using figure::View;

namespace {

constexpr View kViews[] = {View::Side, View::Front, View::Back, View::ThreeQuarter, View::Above};

void for_every_scene(const std::function<void(const page::Drawing&)>& look) {
    for (const View view : kViews) {
        for (const figure::Scene& scene : {heel_raise(view), knee_straighten(view)}) {
            for (const bool right_to_left : {false, true}) {
                draw::Options options;
                options.panels_right_to_left = right_to_left;
                INFO(scene.exercise << " view " << static_cast<int>(view));
                look(draw::draw(scene, options));
                look(draw::draw(mirrored(scene), options));
            }
        }
    }
}

bool is_finite(page::Point p) {
    return std::isfinite(p.x) && std::isfinite(p.y);
}

// Middle of everything painted in the working colour.
double working_middle(const page::Drawing& drawing) {
    Box box;
    for (const page::Shape& shape : drawing.shapes) {
        if (shape.fill == draw::kAccent) {
            box.add(draw::extent(shape.placed()));
        }
    }
    REQUIRE_FALSE(box.is_empty());
    return (box.left + box.right) / 2.0;
}

// Head of one panel: the white badge is a label, so the body's middle is that of its ink.
figure::Scene one_panel(figure::Scene scene) {
    scene.panels.resize(1);
    scene.props.clear();
    return scene;
}

// The legs are apart in it: nothing of the far one lies behind the near one.
figure::Scene last_panel(figure::Scene scene) {
    scene.panels.erase(scene.panels.begin(), scene.panels.end() - 1);
    scene.panels.front().ghost.reset();
    scene.props.clear();
    return scene;
}

double body_middle(const page::Drawing& drawing) {
    Box box;
    for (const page::Shape& shape : drawing.shapes) {
        if (shape.fill == draw::kInk) {
            box.add(draw::extent(shape.placed()));
        }
    }
    return (box.left + box.right) / 2.0;
}

} // namespace

TEST_CASE("every coordinate is finite and inside the drawing") {
    for_every_scene([](const page::Drawing& drawing) {
        REQUIRE(drawing.width > 40.0);
        REQUIRE(drawing.height > 40.0);
        for (const page::Shape& shape : drawing.shapes) {
            REQUIRE_FALSE(shape.path.empty());
            REQUIRE(shape.path.front().kind == page::PathStep::Kind::Move);
            for (const page::PathStep& step : shape.placed()) {
                REQUIRE((is_finite(step.to) && is_finite(step.a) && is_finite(step.b)));
            }
            const double pen = shape.stroke ? shape.stroke->width / 2.0 : 0.0;
            const Box box = draw::extent(shape.placed());
            CHECK(box.left - pen >= -0.06);
            CHECK(box.top - pen >= -0.06);
            CHECK(box.right + pen <= drawing.width + 0.06);
            CHECK(box.bottom + pen <= drawing.height + 0.06);
        }
        for (const page::Label& label : drawing.labels) {
            CHECK(label.at.x >= 0.0);
            CHECK(label.at.x <= drawing.width);
            CHECK(label.at.y - label.height >= -0.06);
            CHECK(label.at.y <= drawing.height);
        }
    });
}

TEST_CASE("a drawing is cropped to what it shows") {
    for_every_scene([](const page::Drawing& drawing) {
        Box all;
        for (const page::Shape& shape : drawing.shapes) {
            const double pen = shape.stroke ? shape.stroke->width / 2.0 : 0.0;
            const Box box = draw::extent(shape.placed());
            all.add(page::Point{box.left, box.top}, pen);
            all.add(page::Point{box.right, box.bottom}, pen);
        }
        CHECK(all.left < 3.0);
        CHECK(all.top < 6.0);                    // a label may reach higher than any shape
        CHECK(all.right > drawing.width - 20.0); // the number beside a clock is a label
        CHECK(all.bottom > drawing.height - 3.0);
    });
}

TEST_CASE("shapes stay few") {
    for_every_scene([](const page::Drawing& drawing) {
        CHECK(drawing.shapes.size() <= 160);
        std::size_t steps = 0;
        for (const page::Shape& shape : drawing.shapes) {
            steps += shape.path.size();
        }
        CHECK(steps <= 1300);
    });
}

TEST_CASE("a limb of three points is the limb with two round ends") {
    // The exact shape is a disc that runs along the limb; a wide end may be flatter by part of the
    // difference.
    const auto outside = [](page::Point p, const draw::Capsule& c) {
        double least = 1e9;
        for (int i = 0; i <= 200; ++i) {
            const double t = i / 200.0;
            least =
                std::min(least, draw::length(draw::operator-(p, draw::between(c.from, c.to, t))) -
                                    (c.from_radius + t * (c.to_radius - c.from_radius)));
        }
        return least;
    };
    for (const draw::Capsule& c :
         {draw::Capsule{{0, 0}, {30, 4}, 5.0, 3.0}, draw::Capsule{{3, 7}, {-20, 30}, 2.0, 4.5},
          draw::Capsule{{1, 1}, {1, 40}, 3.0, 3.0}, draw::Capsule{{5, 5}, {5.5, 5}, 6.0, 4.0}}) {
        const draw::Piece piece = draw::tapered(c);
        const double wider = std::abs(c.from_radius - c.to_radius);
        CHECK(piece.path.size() <= 4);
        const auto borders = draw::borders(piece);
        REQUIRE(borders.size() == 1);
        for (const page::Point p : borders.front()) {
            CHECK(outside(p, c) < 0.1 * wider + 0.01);
            CHECK(outside(p, c) > -0.65 * wider - 0.11);
        }
        const Box box = draw::extent(piece);
        CHECK(box.right - box.left > std::abs(c.to.x - c.from.x));
    }
}

TEST_CASE("what is wider than its path is cut with its width") {
    // A hollow corner: its border must cover what the pen covers, and no more.
    const draw::Piece corner{draw::closed_polygon({{0, 0}, {20, 0}, {20, 20}, {14, 6}}), 3.0};
    const auto borders = draw::borders(corner);
    const auto covered = [&](page::Point p) {
        return std::any_of(borders.begin(), borders.end(), [&](const auto& ring) {
            bool inside = false;
            for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++) {
                if ((ring[i].y > p.y) != (ring[j].y > p.y) &&
                    p.x < (ring[j].x - ring[i].x) * (p.y - ring[i].y) / (ring[j].y - ring[i].y) +
                              ring[i].x) {
                    inside = !inside;
                }
            }
            return inside;
        });
    };
    CHECK(covered({10, -2.8}));
    CHECK(covered({22.8, 10}));
    CHECK(covered({17, 6}));
    CHECK_FALSE(covered({10, -3.2}));
    CHECK_FALSE(covered({23.2, 10}));
    CHECK_FALSE(covered({6, 12}));
}

TEST_CASE("left and right from the front are mirror images of each other") {
    const page::Drawing right = draw::draw(one_panel(heel_raise(View::Front)), {});
    const page::Drawing left = draw::draw(mirrored(one_panel(heel_raise(View::Front))), {});
    CHECK(right.width == Approx(left.width));
    CHECK(right.height == Approx(left.height));
    const double body = body_middle(right);
    CHECK(body == Approx(body_middle(left)).margin(0.05));
    CHECK(working_middle(right) - body == Approx(body - working_middle(left)).margin(0.1));
    CHECK(right.shapes.size() == left.shapes.size());
}

TEST_CASE("the working limb is on its own side") {
    // Facing the reader, the body's right is on the left of the paper; from the back it is on the
    // right.
    const page::Drawing front = draw::draw(one_panel(heel_raise(View::Front)), {});
    CHECK(working_middle(front) < body_middle(front) - 3.0);
    const page::Drawing back = draw::draw(one_panel(heel_raise(View::Back)), {});
    CHECK(working_middle(back) > body_middle(back) + 3.0);
}

TEST_CASE("a picture with a view of its own is looked at from there, its neighbours are not") {
    figure::Scene scene = one_panel(heel_raise(View::Side));
    scene.panels.push_back(scene.panels[0]);
    const double same = draw::draw(scene, {}).width;
    scene.panels[1].view = View::Front;
    const auto of = [&](std::size_t panel, double scale) {
        return draw::camera_for(scene, panel, scale).see({100.0, 0.0, 30.0}).flat().x;
    };
    CHECK(of(0, 0.1) == Approx(10.0)); // forward is to the right of a body seen from its right
    CHECK(of(1, 0.1) == Approx(-3.0)); // and its right to the left, seen from the front
    figure::Scene other = scene;
    other.panels[1].view.reset();
    CHECK(draw::draw(other, {}).width == same);
    CHECK(draw::draw(scene, {}).width > same + 5.0); // shoulders are broader than a chest is deep
    // Far limbs are pale from the side alone.
    const auto far = [&](std::size_t panel) {
        const draw::Camera camera = draw::camera_for(scene, panel, 0.1);
        const auto parts = draw::body_parts(scene.panels[panel].body, scene, camera);
        return std::count_if(parts.begin(), parts.end(),
                             [](const auto& part) { return part.tone == draw::Tone::Far; });
    };
    scene.panels[0].body.at(figure::Landmark::ElbowL).x += 300.0;
    scene.panels[1].body = scene.panels[0].body;
    CHECK(far(0) > 0);
    CHECK(far(1) == 0);
}

TEST_CASE("the near limb is painted after the far one") {
    figure::Scene scene = last_panel(knee_straighten(View::Side));
    const auto order = [](const page::Drawing& drawing) {
        std::size_t far = 0;
        std::size_t working = 0;
        for (std::size_t i = 0; i < drawing.shapes.size(); ++i) {
            far = drawing.shapes[i].fill == draw::kFar ? i : far;
            working = drawing.shapes[i].fill == draw::kAccent ? i : working;
        }
        return std::pair(far, working);
    };
    const auto [far, working] = order(draw::draw(scene, {}));
    CHECK(far > 0);
    CHECK(far < working);
}

TEST_CASE("a far limb behind its twin leaves no splinters") {
    const auto far_shapes = [](figure::Scene scene) {
        const page::Drawing drawing = draw::draw(scene, {});
        return std::count_if(drawing.shapes.begin(), drawing.shapes.end(),
                             [](const page::Shape& shape) { return shape.fill == draw::kFar; });
    };
    CHECK(far_shapes(one_panel(knee_straighten(View::Side))) == 0);
    CHECK(far_shapes(last_panel(knee_straighten(View::Side))) >= 1);
}

TEST_CASE("panels may run from the right, bodies stay as they are") {
    draw::Options right_to_left;
    right_to_left.panels_right_to_left = true;
    const page::Drawing a = draw::draw(heel_raise(), {});
    const page::Drawing b = draw::draw(heel_raise(), right_to_left);
    const auto number_at = [](const page::Drawing& drawing, const std::string& number) {
        const auto it =
            std::find_if(drawing.labels.begin(), drawing.labels.end(),
                         [&](const page::Label& label) { return label.text == number; });
        REQUIRE(it != drawing.labels.end());
        return it->at.x;
    };
    CHECK(number_at(a, "1") < number_at(a, "2"));
    CHECK(number_at(b, "1") > number_at(b, "2"));
    // The same accent areas, only moved: widths and order of points agree.
    const auto widths = [](const page::Drawing& drawing) {
        std::multiset<long> result;
        for (const page::Shape& shape : drawing.shapes) {
            if (shape.fill == draw::kAccent) {
                const Box box = draw::extent(shape.placed());
                result.insert(std::lround(
                    (box.width() + 2.0 * (shape.path[1].to.x - shape.path[0].to.x)) * 10.0));
            }
        }
        return result;
    };
    CHECK(widths(a) == widths(b));
}

TEST_CASE("numbers and hold text are the reader's") {
    draw::Options options;
    options.panel_numbers = {"١", "٢"};
    options.hold_text = "٥ ث";
    const page::Drawing drawing = draw::draw(heel_raise(), options);
    std::multiset<std::string> texts;
    for (const page::Label& label : drawing.labels) {
        texts.insert(label.text);
    }
    CHECK(texts == std::multiset<std::string>{"١", "٢", "٥ ث"});
}

TEST_CASE("a hold text never stands beside another number of seconds") {
    figure::Scene scene = heel_raise();
    scene.panels[0].hold_seconds = 3;
    draw::Options options;
    options.hold_text = "5 s";
    const page::Drawing drawing = draw::draw(scene, options);
    std::multiset<std::string> texts;
    for (const page::Label& label : drawing.labels) {
        texts.insert(label.text);
    }
    CHECK(texts == std::multiset<std::string>{"1", "2", "3", "5"});
}

TEST_CASE("a movement arrow points the way the body point goes") {
    const page::Drawing drawing = draw::draw(heel_raise(), {});
    bool found = false;
    for (const page::Shape& shape : drawing.shapes) {
        if (shape.fill == draw::kArrow && shape.path.size() == 4) {
            found = true;
            const double base = (shape.path[0].to.y + shape.path[1].to.y) / 2.0;
            CHECK(shape.path[2].to.y < base - 5.0); // upwards on paper
        }
    }
    CHECK(found);
}

TEST_CASE("the return is dashed and the movement is not") {
    const page::Drawing drawing = draw::draw(knee_straighten(), {});
    int full = 0;
    int dashed = 0;
    for (const page::Shape& shape : drawing.shapes) {
        if (shape.stroke && shape.stroke->colour == draw::kArrow) {
            (shape.stroke->dashes.empty() ? full : dashed) += 1;
        }
    }
    CHECK(full >= 1);
    CHECK(dashed >= 1);
}

TEST_CASE("the working part carries a pattern, the same limb at rest does not") {
    figure::Scene scene = one_panel(heel_raise(View::Front));
    const auto white_lines = [](const page::Drawing& drawing) {
        return std::count_if(
            drawing.shapes.begin(), drawing.shapes.end(), [](const page::Shape& shape) {
                return !shape.fill && shape.stroke && shape.stroke->colour == draw::kWhite &&
                       shape.path.size() > 12;
            });
    };
    CHECK(white_lines(draw::draw(scene, {})) >= 1);
    scene.working.clear();
    CHECK(white_lines(draw::draw(scene, {})) == 0);
}

TEST_CASE("contrast by the WCAG formula") {
    // check-values 6.3: WCAG 2.x examples computed there.
    struct Row {
        page::Colour colour;
        double ratio;
    };
    for (const Row& row :
         {Row{{0, 0, 0}, 21.0}, Row{{0x76, 0x76, 0x76}, 4.54}, Row{{0x77, 0x77, 0x77}, 4.48},
          Row{{0x59, 0x59, 0x59}, 7.00}, Row{{0x94, 0x94, 0x94}, 3.03}, Row{{0xFF, 0, 0}, 4.00},
          Row{{0, 0, 0xFF}, 8.59}, Row{{0xD5, 0x5E, 0}, 3.87}, Row{{0, 0x9E, 0x73}, 3.42}}) {
        CHECK(draw::contrast(row.colour, draw::kWhite) == Approx(row.ratio).margin(0.006));
    }
    CHECK(draw::contrast(draw::kInk, draw::kWhite) >= 7.0);
    CHECK(draw::contrast(draw::kAccent, draw::kWhite) >= 7.0);
    CHECK(draw::contrast(draw::kMuted, draw::kWhite) >= 4.5);
    CHECK(draw::contrast(draw::kArrow, draw::kWhite) >= 4.5);
}

TEST_CASE("no colour outside the palette; far limbs have a dark outline") {
    const std::vector<page::Colour> palette{draw::kInk,  draw::kAccent, draw::kMuted, draw::kArrow,
                                            draw::kPale, draw::kTint,   draw::kWhite, draw::kFar};
    const auto known = [&](page::Colour colour) {
        return std::find(palette.begin(), palette.end(), colour) != palette.end();
    };
    for_every_scene([&](const page::Drawing& drawing) {
        for (const page::Shape& shape : drawing.shapes) {
            CHECK((!shape.fill || known(*shape.fill)));
            CHECK((!shape.stroke || known(shape.stroke->colour)));
        }
    });
    // The path of a far limb was painted dark before, wider by the outline on both sides; its own
    // tone carries meaning (3:1), and is told from that of a ghost in a copy.
    CHECK(draw::contrast(draw::kFar, draw::kWhite) >= 3.0);
    CHECK(draw::contrast(draw::kFar, draw::kPale) >= 1.8);
    const page::Drawing side = draw::draw(last_panel(knee_straighten()), {});
    const auto width = [](const page::Shape& shape) {
        return shape.stroke ? shape.stroke->width : 0.0;
    };
    int far = 0;
    for (std::size_t i = 0; i < side.shapes.size(); ++i) {
        const page::Shape& pale = side.shapes[i];
        if (pale.fill != draw::kFar) {
            continue;
        }
        ++far;
        CHECK(std::any_of(side.shapes.begin(), side.shapes.begin() + static_cast<long>(i),
                          [&](const page::Shape& dark) {
                              return dark.fill == draw::kMuted && dark.path == pale.path &&
                                     width(dark) >= width(pale) + 1.5;
                          }));
    }
    CHECK(far >= 2);
}

TEST_CASE("hostile scenes do not break the drawing") {
    CHECK(draw::draw(figure::Scene{}, {}).shapes.empty());
    figure::Scene flat = heel_raise();
    for (figure::Panel& panel : flat.panels) {
        panel.body = figure::Body{}; // every point at the same place
        panel.arrows = {{{}, false}, {{{0, 0, 0}}, true}};
        panel.bands = {{{}, 0.0, false, false}};
        panel.press_at = {{0, 0, 0}};
        panel.press_to = {{0, 0, 0}};
    }
    for (const page::Shape& shape : draw::draw(flat, {}).shapes) {
        for (const page::PathStep& step : shape.placed()) {
            REQUIRE((is_finite(step.to) && is_finite(step.a) && is_finite(step.b)));
        }
    }
}
