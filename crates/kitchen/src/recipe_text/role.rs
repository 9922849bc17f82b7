//! What an ingredient does in the jar, from what it is.

use crate::recipe::Role;
use reference::IngredientKind;

/// The role of a kind of ingredient; none for a word that only says how a thing is cut.
pub fn role_of(kind: IngredientKind) -> Option<Role> {
    use IngredientKind as K;
    Some(match kind {
        K::Vinegar
        | K::CiderVinegar
        | K::UnknownVinegar
        | K::HomeMadeVinegar
        | K::BottledLemon
        | K::BottledLime
        | K::BottledCitrus
        | K::FreshCitrus
        | K::CitricAcid
        | K::OtherAcid => Role::Acid,
        K::Water | K::Juice => Role::Liquid,
        K::Salt | K::TableSalt | K::FlakeSalt | K::ReducedSodiumSalt => Role::Salt,
        K::Sugar | K::Honey | K::Sucralose | K::OtherSweetener => Role::Sweetener,
        K::DriedSpice | K::Seasoning => Role::Spice,
        K::CanningStarch | K::Thickener => Role::Thickener,
        K::Oil => Role::Fat,
        K::Pepper
        | K::CannedPepper
        | K::Onion
        | K::OtherOnion
        | K::Garlic
        | K::Mushroom
        | K::WildMushroom
        | K::Vegetable
        | K::VegetableMix
        | K::LeafyGreen
        | K::DriedBean
        | K::CreamCorn
        | K::WinterSquash
        | K::SweetPotato
        | K::Cucumber
        | K::SummerSquash
        | K::FreshHerb
        | K::LowAcidFruit
        | K::Tomato
        | K::GreenTomato
        | K::Tomatillo
        | K::Fruit
        | K::BorderlineFruit => Role::Produce,
        K::Meat
        | K::Filler
        | K::Dairy
        | K::Pectin
        | K::PicklingLime
        | K::Alum
        | K::Colouring
        | K::Other => Role::Other,
        K::HowCut => return None,
    })
}
