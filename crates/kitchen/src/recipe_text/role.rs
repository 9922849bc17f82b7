//! What an ingredient does in the jar, from what it is.

use crate::recipe::Role;
use reference::IngredientKind;

/// The role of a kind of ingredient; none for a word that only says how a thing is cut.
pub fn role_of(kind: IngredientKind) -> Option<Role> {
    use IngredientKind as K;
    Some(match kind {
        K::HowCut => return None,
        K::UnknownVinegar | K::HomeMadeVinegar => Role::Acid,
        kind if kind.is_acid() => Role::Acid,
        K::Water | K::Juice => Role::Liquid,
        K::Salt | K::TableSalt | K::FlakeSalt | K::ReducedSodiumSalt => Role::Salt,
        K::Sugar | K::Honey | K::Sucralose | K::OtherSweetener => Role::Sweetener,
        K::DriedSpice | K::Seasoning => Role::Spice,
        K::CanningStarch | K::Thickener => Role::Thickener,
        K::Oil => Role::Fat,
        // Low in acid like a vegetable, but nothing that was picked.
        K::Meat => Role::Other,
        kind if kind.is_food() => Role::Produce,
        _ => Role::Other,
    })
}
