// SPDX-License-Identifier: MIT
#include "text/fonts.h"

#include <algorithm>
#include <utility>

#include "text/font_set.h"
#include "text/prepared.h"
#include "text/word_cache.h"

namespace tickleaf::text {

namespace {

constexpr const char* kTablePath = "templates/fonts.yaml";
/// Where a file does not state its x-height: half the type size, the ratio the clear-print advice
/// assumes.
constexpr double kUsualXHeight = 0.5;

bool file_exists(const support::Environment& environment, const std::string& path) {
    return path.empty() || environment.map_file(path) != nullptr;
}

std::string reason(FaceProblem problem) {
    switch (problem) {
    case FaceProblem::Missing:
        return "is missing";
    case FaceProblem::MayNotBeEmbedded:
        return "may not be embedded in a document (OS/2 fsType)";
    case FaceProblem::NameKeyed:
        return "has CFF outlines by glyph name, which cannot be embedded";
    case FaceProblem::Cff2:
        return "has variable CFF outlines (CFF2), which cannot be embedded";
    case FaceProblem::Damaged:
    case FaceProblem::None:
        break;
    }
    return "is damaged";
}

std::string remedy(FaceProblem problem, const Family& family) {
    switch (problem) {
    case FaceProblem::NameKeyed:
    case FaceProblem::Cff2:
    case FaceProblem::MayNotBeEmbedded:
        return "name a TrueType or CID-keyed font for the family " + family.name +
               " in templates/fonts.yaml";
    case FaceProblem::Missing:
    case FaceProblem::Damaged:
    case FaceProblem::None:
        break;
    }
    return "install the Debian package " + family.package;
}

} // namespace

Fonts::Impl::Impl() : words(std::make_unique<WordCache>()) {}
Fonts::Impl::~Impl() = default;

const OpenedFace& Fonts::Impl::open(std::size_t family, Weight weight) const {
    const Family& entry = table.families.at(family);
    const bool bold = usable_weight(family, weight) == Weight::Bold;
    Slot& slot = slots[family * 2 + (bold ? 1 : 0)];
    std::call_once(slot.once, [&] {
        slot.opened = open_face(*environment, bold ? entry.bold : entry.regular, entry.index,
                                family * 2 + (bold ? 1 : 0),
                                bold ? entry.bold_advances : std::vector<GlyphAdvance>{});
    });
    return slot.opened;
}

void Fonts::Impl::forget(Remembered left) const {
    cache.clear();
    if (left == Remembered::Nothing) {
        words->clear();
    }
}

Weight Fonts::Impl::usable_weight(std::size_t family, Weight weight) const {
    return table.families.at(family).bold.empty() ? Weight::Regular : weight;
}

std::optional<std::size_t> Fonts::Impl::family_of(const LanguageInfo& language,
                                                  UScriptCode script) const {
    if (language.writes(script)) {
        for (const std::string& key : language.keys) {
            const auto found = table.languages.find(key);
            if (found != table.languages.end()) {
                return found->second;
            }
        }
    }
    const auto found = table.scripts.find(std::string_view(uscript_getShortName(script)));
    return found == table.scripts.end() ? std::nullopt : std::optional(found->second);
}

std::size_t Fonts::Impl::main_family(const LanguageInfo& language) const {
    return family_of(language, language.scripts.front()).value_or(table.fallback.front());
}

Fonts::Fonts() : impl_(std::make_unique<Impl>()) {}
Fonts::~Fonts() = default;

std::shared_ptr<const Fonts> Fonts::load(const support::Environment& environment,
                                         support::Sources& sources, support::Findings& findings) {
    auto text = environment.read_data(kTablePath);
    if (!text) {
        findings.error({}, "font-table", "the font table templates/fonts.yaml is missing",
                       "check that the data folder is complete");
        return nullptr;
    }
    const int file = sources.add(kTablePath, std::move(*text));
    const auto root = yaml::read(sources, file, findings);
    if (!root) {
        return nullptr;
    }
    auto table = read_font_table(*root, findings);
    if (!table) {
        return nullptr;
    }
    std::shared_ptr<Fonts> fonts(new Fonts());
    fonts->impl_->environment = &environment;
    fonts->impl_->slots = std::make_unique<Impl::Slot[]>(table->families.size() * 2);
    fonts->impl_->table = std::move(*table);
    return fonts;
}

FontState Fonts::state(std::string_view language) const {
    // Names, numbers and telephone numbers are set in the first fallback family in every language.
    FontState result{true, {}};
    for (const std::size_t index :
         {impl_->main_family(describe_language(language)), impl_->table.fallback.front()}) {
        const Family& family = impl_->table.families[index];
        if (file_exists(*impl_->environment, family.regular) &&
            file_exists(*impl_->environment, family.bold)) {
            continue;
        }
        result.ready = false;
        auto& missing = result.missing_packages;
        if (std::find(missing.begin(), missing.end(), family.package) == missing.end()) {
            missing.push_back(family.package);
        }
    }
    return result;
}

double Fonts::x_height(std::string_view language) const {
    const auto& opened =
        impl_->open(impl_->main_family(describe_language(language)), Weight::Regular);
    if (!opened.face || opened.face->x_height <= 0.0) {
        return kUsualXHeight;
    }
    return opened.face->x_height / opened.face->units_per_em;
}

double Fonts::line_height(std::string_view language) const {
    return impl_->table.families[impl_->main_family(describe_language(language))].line_height;
}

LanguageState& FontSet::Impl::language(std::string_view tag) {
    const auto found = languages.find(tag);
    if (found != languages.end()) {
        return found->second;
    }
    LanguageState state;
    state.info = describe_language(tag);
    state.shaping = hb_language_from_string(tag.data(), static_cast<int>(tag.size()));
    return languages.emplace(std::string(tag), std::move(state)).first->second;
}

const Face* FontSet::Impl::face(std::size_t family, Weight weight, support::Findings& findings) {
    const OpenedFace& opened = shared().open(family, weight);
    if (!opened.face && std::find(reported_.begin(), reported_.end(), family) == reported_.end()) {
        reported_.push_back(family);
        const Family& entry = shared().table.families[family];
        const bool bold = shared().usable_weight(family, weight) == Weight::Bold;
        findings.error({}, "font-file",
                       "the font file " + (bold ? entry.bold : entry.regular) + " " +
                           reason(opened.problem),
                       remedy(opened.problem, entry));
    }
    return opened.face.get();
}

std::size_t FontSet::Impl::number(std::size_t family, Weight weight) {
    const Weight usable = shared().usable_weight(family, weight);
    std::size_t& slot = numbers[family * 2 + (usable == Weight::Bold ? 1 : 0)];
    if (slot == kUnused) {
        slot = used.size();
        used.push_back({shared().open(family, usable).face.get(), family, usable});
    }
    return slot;
}

bool FontSet::Impl::covers(const Face& face, char32_t character) {
    const auto mixed = static_cast<std::size_t>(character) * 7 + face.serial * 131;
    Known& known = known_[mixed % kKnown];
    if (known.face != &face || known.character != character) {
        known = {character, &face, face.glyph(character) != 0};
    }
    return known.covered;
}

std::shared_ptr<const Shaped> ShapedCache::find(const std::string& key) {
    const std::lock_guard lock(mutex_);
    const auto young = young_.find(key);
    if (young != young_.end()) {
        return young->second;
    }
    const auto old = old_.find(key);
    if (old == old_.end()) {
        return nullptr;
    }
    auto found = old->second;
    keep(key, found);
    return found;
}

void ShapedCache::keep(const std::string& key, std::shared_ptr<const Shaped> shaped) {
    if (bytes_ + key.size() > kMostBytes) {
        old_ = std::move(young_);
        young_.clear();
        bytes_ = 0;
    }
    if (young_.emplace(key, std::move(shaped)).second) {
        bytes_ += key.size();
    }
}

void ShapedCache::add(const std::string& key, std::shared_ptr<const Shaped> shaped) {
    const std::lock_guard lock(mutex_);
    keep(key, std::move(shaped));
}

void ShapedCache::clear() {
    const std::lock_guard lock(mutex_);
    young_.clear();
    old_.clear();
    bytes_ = 0;
}

FontSet::FontSet(std::shared_ptr<const Fonts> fonts) : impl_(std::make_unique<Impl>()) {
    support::internal_error_if(!fonts, "a FontSet needs fonts");
    impl_->numbers.assign(fonts->impl().table.families.size() * 2, Impl::kUnused);
    impl_->fonts = std::move(fonts);
    impl_->buffer.reset(hb_buffer_create());
}
FontSet::~FontSet() = default;
FontSet::FontSet(FontSet&&) noexcept = default;
FontSet& FontSet::operator=(FontSet&&) noexcept = default;
const Fonts& FontSet::fonts() const {
    return *impl_->fonts;
}

} // namespace tickleaf::text
