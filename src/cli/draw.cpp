// SPDX-License-Identifier: MIT
#include "draw/draw.h"

#include <filesystem>

#include "cli/commands.h"
#include "cli/disk.h"
#include "cli/exit_code.h"
#include "support/side.h"

namespace tickleaf::cli {

namespace {

constexpr double kPixelsPerPoint = 3.0; ///< sharp at twice the printed size on a common screen
constexpr int kSheetColumns = 4;

std::string encode(const page::Drawing& drawing, const std::string& format) {
    if (format == "png") {
        return draw::to_png(drawing, kPixelsPerPoint);
    }
    return format == "pdf" ? draw::to_pdf(drawing) : draw::to_svg(drawing);
}

bool save(const std::filesystem::path& path, const std::string& bytes, Session& session,
          support::Findings& findings) {
    const std::string why = write_file(path, bytes);
    if (!why.empty()) {
        findings.error({}, "file-unwritable", "\"" + path.string() + "\" cannot be written: " + why,
                       "choose another folder with --output");
        return false;
    }
    session.out << path.string() << '\n';
    return true;
}

/// Side and height as asked for; no band and no seconds, which only a prescription gives.
figure::Request usual_request(const DrawOptions& options, support::Side side) {
    figure::Request request;
    request.side = side;
    request.stature_mm = options.height_cm * 10.0;
    return request;
}

} // namespace

int draw(const DrawOptions& options, Session& session) {
    support::Findings findings;
    const auto side = support::side_from_word(options.side);
    const auto ids = options.all ? session.workspace.exercise_ids() : options.exercises;
    if (!make_folder(options.output, findings)) {
        print(findings, session, false);
        return kFileTrouble;
    }
    std::vector<draw::SheetEntry> drawings;
    for (const std::string& id : ids) {
        const auto drawing = session.workspace.drawing(id, usual_request(options, *side), findings);
        if (drawing) {
            drawings.push_back({id, *drawing});
        }
    }
    if (findings.has_errors()) {
        print(findings, session, false);
        return exit_code(findings);
    }
    const std::filesystem::path folder = options.output;
    bool good = true;
    if (options.all) {
        good = save(folder / ("exercises." + options.format),
                    encode(draw::contact_sheet(drawings, kSheetColumns), options.format), session,
                    findings);
    } else {
        for (const draw::SheetEntry& entry : drawings) {
            good = good && save(folder / (entry.title + "-" + options.side + "." + options.format),
                                encode(entry.drawing, options.format), session, findings);
        }
    }
    print(findings, session, false);
    return good ? kDone : kFileTrouble;
}

} // namespace tickleaf::cli
